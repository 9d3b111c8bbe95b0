import { language, say } from '../texts/start';
import { getNewest, stepBack } from './newest-version';
import { readVersions } from './versions';

/**
 * Runs before the app, from the file that starts it: when nothing of the app appears, it says so and offers the ways
 * out of a damaged copy or a broken version. It uses nothing that the app loads, and has its texts in every language.
 */

/** After something failed; a start that only stumbled is over by then. */
const AFTER_ERROR_MS = 1500;
/** Without any failure: longer than a first load takes on a slow network. */
const AFTER_SILENCE_MS = 30_000;

const home = document.getElementById('app');

/** What the app has put on the page: anything but the file that starts it, and this. */
function hasStarted(): boolean {
  return home !== null && [...home.children].some(({ localName, id }) => localName !== 'script' && id !== ID);
}

const ID = 'not-started';
let isShown = false;

async function show(): Promise<void> {
  if (isShown || !home || hasStarted()) return;
  isShown = true;
  const versions = await readVersions();
  const canStepBack = versions !== null && versions.previous !== null && !versions.isSteppedBack;
  const status = made('p', 'small');
  status.setAttribute('role', 'status');
  const ways = made('p', 'acts');
  ways.append(
    way(say.tryAgain, status, () => Promise.resolve(reload())),
    way(say.getNewest, status, async () => {
      const answer = await getNewest();
      return answer === 'reload' ? reload() : say.newest[answer];
    }),
  );
  if (canStepBack) {
    ways.append(way(say.stepBack, status, async () => ((await stepBack()) ? reload() : say.noVersionBefore)));
  }
  const page = made('main', 'page');
  page.id = ID;
  // the page itself says the language of the app only once that has started
  page.lang = language;
  page.append(made('h1', 'top', say.title), made('p', '', say.safe), ways, status);
  home.append(page);
  new MutationObserver(() => {
    if (hasStarted()) page.remove();
  }).observe(home, { childList: true });
}

function reload(): string {
  location.reload();
  return '';
}

function made<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  className: string,
  text = '',
): HTMLElementTagNameMap[Name] {
  const element = document.createElement(name);
  element.className = className;
  element.textContent = text;
  return element;
}

/** A button that says what came of it. */
function way(text: string, status: HTMLElement, act: () => Promise<string>): HTMLButtonElement {
  const button = made('button', 'btn', text);
  button.type = 'button';
  button.addEventListener('click', () => {
    button.disabled = true;
    status.textContent = say.moment;
    void act().then((said) => {
      status.textContent = said;
      button.disabled = false;
    });
  });
  return button;
}

const soon = (): void => {
  setTimeout(() => void show(), AFTER_ERROR_MS);
};
// while capturing: a script or style that cannot be loaded tells only its own element
addEventListener('error', soon, { capture: true });
addEventListener('unhandledrejection', soon);
setTimeout(() => void show(), AFTER_SILENCE_MS);
