import { say } from '$lib/texts/share';

/** Long enough for the slowest browser to have begun the download. */
const ADDRESS_KEPT_MS = 60_000;

/** Hands a file to the browser to keep; resolves nothing, for browsers do not say when they have it. */
export function download(file: File): void {
  const address = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = address;
  link.download = file.name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), ADDRESS_KEPT_MS);
}

/** True where the device has a share sheet that says that it takes this file. */
export function canSend(file: File): boolean {
  return typeof navigator.canShare === 'function' && navigator.canShare({ files: [file] });
}

/**
 * A file through the share sheet. `saved`: the sheet would not take the file after all, so it was downloaded. Call it
 * within a user gesture.
 */
export async function send(file: File): Promise<'sent' | 'left' | 'saved'> {
  try {
    await navigator.share({ files: [file], title: file.name });
    return 'sent';
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return 'left';
    // some browsers refuse files by their ending, and only when the sheet is asked for
    download(file);
    return 'saved';
  }
}

/**
 * A file through the share sheet where there is one that takes it, else as a download. Resolves with what became of it, in
 * a sentence. Call it within a user gesture.
 */
export async function handOut(file: File): Promise<string> {
  if (canSend(file)) return say.became[await send(file)];
  download(file);
  return say.became.saved;
}
