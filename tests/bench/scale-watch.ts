/** What the app did on a page, noted by `WATCH`. Times are ms since the page was asked for. */
export interface ScaleWatch {
  usableMs: number | null;
  /** When a plan of the log as it stands was there. */
  plannedMs: number | null;
  /** Times for which the page could not answer: tasks of more than 50 ms. */
  tasks: { at: number; ms: number }[];
  /** Questions to the practice desk, when they were asked and how long the answer took. */
  asked: { verb: string; at: number; ms: number }[];
  /** ms from a touch on `touched` until `shown` is there and painted. */
  reach: (touched: string, shown: string) => Promise<number>;
}

declare global {
  var scaleWatch: ScaleWatch;
}

/** As text: the loader of this file would put calls to a helper of its own into a function that it can see. */
export const WATCH = `
  globalThis.scaleWatch = { usableMs: null, plannedMs: null, tasks: [], asked: [], reach: null };
  new MutationObserver(() => {
    if (document.querySelector('[data-usable]')) scaleWatch.usableMs ??= performance.now();
  }).observe(document, { childList: true, subtree: true, attributes: true });
  new PerformanceObserver((list) => {
    for (const { startTime, duration } of list.getEntries()) scaleWatch.tasks.push({ at: startTime, ms: duration });
  }).observe({ type: 'longtask', buffered: true });
  const setItem = Storage.prototype.setItem;
  Storage.prototype.setItem = function (...item) {
    if (item[0] === 'phrasewright-glimpse') scaleWatch.plannedMs ??= performance.now();
    return setItem.apply(this, item);
  };
  const postMessage = Worker.prototype.postMessage;
  Worker.prototype.postMessage = function (message, ...rest) {
    const { id, verb } = message ?? {};
    const at = performance.now();
    const hear = ({ data }) => {
      if (data.id !== id) return;
      this.removeEventListener('message', hear);
      scaleWatch.asked.push({ verb, at, ms: performance.now() - at });
    };
    if (verb) this.addEventListener('message', hear);
    return postMessage.call(this, message, ...rest);
  };
  scaleWatch.reach = (touched, shown) => new Promise((resolve) => {
    const began = performance.now();
    document.querySelector(touched).click();
    const look = () => {
      if (document.querySelector(shown)) setTimeout(() => resolve(performance.now() - began));
      else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });
`;
