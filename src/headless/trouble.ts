/** Bad input: its message is the one sentence that the person at the terminal reads. */
export class Trouble extends Error {}
