/** The name of the app's one book: of its database, and of the folder of its second copy. */
export const BOOK_NAME = 'phrasewright';
