/** A tempo as it is said: the nearest whole beat a minute. */
export function tempoWord(tempo: number): string {
  return String(Math.round(tempo));
}
