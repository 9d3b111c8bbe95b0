/**
 * A sitting's line of notes after an edit that began from `before` and came to `mine`, where it has become `now` in
 * another tab meanwhile: nothing of either is lost.
 */
export function noteOver(now: string, before: string, mine: string): string {
  if (now === before || mine.includes(now)) return mine;
  if (now.includes(mine)) return now;
  const added = mine.startsWith(before) ? mine.slice(before.length).trim() : mine;
  return `${now}\n${added}`;
}
