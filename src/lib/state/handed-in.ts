import { HANDED_IN, readHandedIn } from '$lib/offline/handed-in';

/** Web App Launch Handler API, which the platform's types do not have yet. */
interface LaunchWindow {
  launchQueue?: {
    setConsumer(consumer: (launch: { files?: readonly FileSystemFileHandle[] }) => void): void;
  };
}

/**
 * Gives a screen what the system opened with it, or what another app shared with it: a file, or text. `null`: something
 * was shared, and did not arrive.
 */
export function onHandedIn(url: URL, take: (what: File | string | null) => void): void {
  if (url.searchParams.has(HANDED_IN)) void readHandedIn().then(take);
  const { launchQueue } = window as LaunchWindow;
  launchQueue?.setConsumer(({ files }) => {
    files?.[0]?.getFile().then(take, () => take(null));
  });
}
