import { expect, test } from 'vitest';
import { openApp } from './harness';
import { addTune, begin, button, isUsable, readKept, SLOW, soon, wordIs } from './learner';

/** Put in at the browser's own boundary, for no test machine has a pedal: a game pad, and a MIDI input. */
function plugIn() {
  const pad = { index: 0, buttons: [{ pressed: false }, { pressed: false }] };
  const input = {
    name: 'Two-switch board',
    onmidimessage: null as ((event: { data: Uint8Array }) => void) | null,
  };
  const midi = { inputs: new Map([['1', input]]), onstatechange: null };
  Object.assign(globalThis, { pad, input });
  Object.defineProperty(navigator, 'getGamepads', { value: () => [pad, null] });
  Object.defineProperty(navigator, 'requestMIDIAccess', { value: () => Promise.resolve(midi) });
  const query = navigator.permissions.query.bind(navigator.permissions);
  navigator.permissions.query = (wanted) =>
    (wanted.name as string) === 'midi'
      ? Promise.resolve({ state: 'granted' } as PermissionStatus)
      : query(wanted);
}

interface PluggedIn {
  pad: { buttons: { pressed: boolean }[] };
  input: { onmidimessage: ((event: { data: Uint8Array }) => void) | null };
}

test('a button of a game pad and a MIDI pedal mark as a touch does', async () => {
  const { page, context, url } = await openApp({ path: null, hasTouch: true });
  await context.addInitScript(plugIn);
  await page.goto(`${url}/add/`);
  await isUsable(page);
  await addTune(page, { title: 'Kettle Lane', goal: 300 });
  await begin(page);

  await page.locator('.drill.breathing').waitFor(SLOW);
  await page.evaluate(async () => {
    const { pad } = globalThis as unknown as PluggedIn;
    for (const pressed of [true, false]) {
      if (pad.buttons[1]) pad.buttons[1].pressed = pressed;
      for (let frame = 0; frame < 3; frame++) await new Promise(requestAnimationFrame);
    }
  });
  await wordIs(page, /^clean/);
  await soon(async () => (await readKept(page)).passes.map(({ entry }) => entry.outcome)).toEqual(['clean']);

  await page.locator('.drill:not(.breathing)').waitFor(SLOW);
  await page.locator('.drill.breathing').waitFor(SLOW);
  await page.evaluate(() => {
    const { input } = globalThis as unknown as PluggedIn;
    for (let press = 0; press < 2; press++) {
      for (const value of [127, 0]) input.onmidimessage?.({ data: new Uint8Array([0xb0, 64, value]) });
    }
  });
  await wordIs(page, /^stumbled/);

  await page.goto(`${url}/settings/`);
  await isUsable(page);
  await button(page, 'Use a MIDI pedal').click();
  await page.getByText('Each press is a touch now: Two-switch board.').waitFor(SLOW);
  expect(await button(page, 'Use a MIDI pedal').isEnabled()).toBe(true);
});
