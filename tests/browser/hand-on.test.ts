import jsQR from 'jsqr';
import type { Locator } from 'playwright';
import { expect, test } from 'vitest';
import { DESKTOP, openApp } from './harness';
import { button, isUsable, readKept, readPlan, SLOW } from './learner';

/** What another program reads from the picture of a code: jsqr, which shares nothing with the library that draws it. */
async function readCode(code: Locator): Promise<string | undefined> {
  // whole pixels to a square, as the finer screen of a phone has them, and nothing over it
  await code.evaluate((drawn: SVGSVGElement) => {
    const width = `${String(drawn.viewBox.baseVal.width * 6)}px`;
    const corner = { position: 'absolute', top: '0', left: '0', zIndex: '99' };
    Object.assign(drawn.style, { width, maxWidth: 'none', ...corner });
  });
  const picture = await code.screenshot();
  const { page } = await openApp({ path: null });
  const { data, width, height } = await page.evaluate(async (base64) => {
    const image = new Image();
    image.src = `data:image/png;base64,${base64}`;
    await image.decode();
    const canvas = Object.assign(document.createElement('canvas'), {
      width: image.width,
      height: image.height,
    });
    const context = canvas.getContext('2d');
    context?.drawImage(image, 0, 0);
    const { data: pixels } = context?.getImageData(0, 0, image.width, image.height) ?? {};
    // a million numbers one by one take the debugger half a minute
    const blob = new Blob([new Uint8Array(pixels ?? [])]);
    const read = new FileReader();
    read.readAsDataURL(blob);
    await new Promise((resolve) => read.addEventListener('load', resolve));
    return { data: String(read.result).split(',')[1] ?? '', width: image.width, height: image.height };
  }, picture.toString('base64'));
  return jsQR(new Uint8ClampedArray(Buffer.from(data, 'base64')), width, height)?.data;
}

test('a tune is handed on by link and by code, looked at, kept, and taken again without a double', async () => {
  const teacher = await openApp({ viewport: DESKTOP });
  await button(teacher.page, 'Try it with the demo tunes').click();
  await readPlan(teacher.page);
  const demo = (await readKept(teacher.page)).tunes.find(({ title }) => title === 'Old Joe Clark');
  await teacher.page.goto(`${teacher.url}/tune/?id=${String(demo?.id)}`);
  await button(teacher.page, 'Share').click();
  await teacher.page.getByRole('link', { name: /^Link or code/ }).click();
  await teacher.page.waitForURL(/\/hand-on\//, SLOW);
  await isUsable(teacher.page);
  const link = await teacher.page.getByLabel(/^The link/).inputValue();
  expect(await readCode(teacher.page.getByRole('img', { name: 'QR code of the link' }))).toBe(link);

  const student = await openApp({ url: teacher.url });
  await student.page.goto(link);
  await student.page.getByRole('heading', { name: 'Old Joe Clark' }).waitFor(SLOW);
  expect((await readKept(student.page)).tunes).toEqual([]);
  await button(student.page, /^Keep this tune/).click();
  await student.page.waitForURL(/\/tune\/\?id=/, SLOW);
  const [kept] = (await readKept(student.page)).tunes;
  expect(kept).toMatchObject({ title: 'Old Joe Clark', origin: 'own', goalTempo: demo?.goalTempo });
  expect(kept?.figures.map(({ strikes }) => strikes)).toEqual(demo?.figures.map(({ strikes }) => strikes));

  await student.page.goto(`${student.url}/add/`);
  await student.page.getByRole('link', { name: 'Take one that was handed on' }).click();
  await student.page.getByLabel('The link').fill(link.slice(0, -20));
  await button(student.page, 'Look at it').click();
  await student.page.getByText(/This link cannot be read: .*Ask for it again/).waitFor(SLOW);
  await student.page.getByLabel('The link').fill(link);
  await button(student.page, 'Look at it').click();
  await student.page.getByText(/Your book holds this tune/).waitFor(SLOW);
  await button(student.page, /^Take what is new in it/).click();
  await student.page.waitForURL(/\/tune\/\?id=/, SLOW);
  expect((await readKept(student.page)).tunes).toHaveLength(1);
});
