/** A passage's name where it is not at the head of a sentence: `measure 6, part B`. */
export function midSentence(name: string): string {
  return name.charAt(0).toLowerCase() + name.slice(1);
}
