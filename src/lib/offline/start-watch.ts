import { getNewest, stepBack, type NewestAnswer } from './newest-version';
import { readVersions } from './versions';

/**
 * Runs before the app, from the file that starts it: when nothing of the app appears, it says so and offers the ways
 * out of a damaged copy or a broken version. It uses nothing that the app loads.
 */

/** After something failed; a start that only stumbled is over by then. */
const AFTER_ERROR_MS = 1500;
/** Without any failure: longer than a first load takes on a slow network. */
const AFTER_SILENCE_MS = 30_000;

const SAYS: Record<Exclude<NewestAnswer, 'reload'>, string> = {
  none: 'There is no newer version yet, and the files here are whole.',
  'no network': 'The server cannot be reached. Connect to the network, then try again.',
  drill: 'A drill is open in another tab. End it there first.',
};

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
    way('Try again', status, () => Promise.resolve(reload())),
    way('Get the newest version', status, async () => {
      const answer = await getNewest();
      return answer === 'reload' ? reload() : SAYS[answer];
    }),
  );
  if (canStepBack) {
    ways.append(
      way('Use the version before', status, async () =>
        (await stepBack()) ? reload() : 'The version before is not on this device any more.',
      ),
    );
  }
  const page = made('main', 'page');
  page.id = ID;
  page.append(
    made('h1', 'top', 'Phrasewright did not start'),
    made('p', '', 'Your book is as it was: it is kept apart from the program.'),
    ways,
    status,
  );
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
    status.textContent = 'One moment …';
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
