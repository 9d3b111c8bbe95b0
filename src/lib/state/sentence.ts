/** The text of an error as the end of a sentence. */
export function sentence(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
