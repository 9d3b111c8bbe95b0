/** A passage's name where it is not at the head of a sentence: `das ganze Stück`; a noun keeps its capital. */
export function midSentence(name: string): string {
  return name.replace(/^(Das|Eine) /, (article) => article.toLowerCase());
}
