// Everything hands can be put to on a whole day, in a narrow window by keys alone and on the phone
// by touch alone: from the drawing, through the slip beside it, to what was asked for. The clock
// stands, so that nothing waits for hands. And the list: every part has a row there.

import { expect, test, type Locator, type Page } from '@playwright/test';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from '../tools/install.mjs';
import { axeFaults, sharedNames } from './look.ts';
import {
  CALM, controlsList, enterYard, openJob, readClock, readings, setSpeed, showAllReadings,
} from './play.ts';

const JOB = 'otter-bank';

/** A machine without a graphics card takes its time over so large a drawing. */
test.setTimeout(180_000);
test.use({ viewport: { width: 390, height: 844 } });

interface Thing {
  /** On the drawing: how its button's name begins. */
  readonly hit: string;
  /** In its slip: the button to press, and the button's name on the drawing afterwards. */
  readonly choice: string;
  readonly then: string;
  /** True where the slip is also looked at by the automatic check of accessibility. */
  readonly axe?: boolean;
}

const WILL = 'your hands will';
const THINGS: readonly Thing[] = [
  {
    hit: 'Fill valve', choice: 'Fill valve: half open', axe: true,
    then: `Fill valve, shut, ${WILL} set it to 45° open`,
  },
  {
    hit: 'Feed handle', choice: 'Feed handle: all three joined', axe: true,
    then: `${WILL} set it to all three joined`,
  },
  {
    hit: 'Supply coupling', choice: 'Supply coupling: join', axe: true,
    then: `Supply coupling, apart, ${WILL} see that it is joined`,
  },
  {
    hit: 'Arms of the supply coupling', choice: 'Arms of the supply coupling: arms shut',
    then: `${WILL} see that it is arms shut`,
  },
  {
    hit: 'Hand pump', choice: 'Hand pump: 5 strokes', axe: true,
    then: 'Hand pump, 0 of 5 strokes',
  },
  {
    hit: 'Lock of the loop pump', choice: 'Lock of the loop pump: locked off',
    then: `${WILL} see that it is locked off`,
  },
  {
    hit: 'Backflow protection', choice: 'Backflow protection: fitted',
    then: `${WILL} see that it is fitted`,
  },
  {
    hit: 'Strainer lid', choice: 'Strainer lid: no element',
    then: `${WILL} see that it is no element`,
  },
  {
    hit: 'Plug', choice: 'Plug: in the protected outlet',
    then: `${WILL} see that it is in the protected outlet`,
  },
  {
    hit: 'Breaker', choice: 'Breaker: off or tripped',
    then: `${WILL} see that it is off or tripped`,
  },
  {
    hit: 'Ground-fault protector', choice: 'Ground-fault protector: press its test',
    then: `${WILL} see that it is press its test`,
  },
  {
    hit: 'Eye protection', choice: 'Eye protection: on', axe: true,
    then: `Eye protection, off, ${WILL} see that it is on`,
  },
  { hit: 'Tag at the unit', choice: 'Tag at the unit: done', then: `${WILL} see that it is done` },
  {
    hit: 'Sample cup', choice: 'Sample cup: from the barrel',
    then: `${WILL} see that it is from the`,
  },
  {
    hit: 'Pail for glycol', choice: 'Pail for glycol: 2 trips',
    then: 'Pail for glycol, 0 of 2 trips',
  },
];

const hits = (page: Page) => page.locator('.stage');

/** Presses as the project does: a finger on the phone, keys on the desktop. */
function presser(page: Page, touch: boolean) {
  return async (one: Locator, key = 'Enter') => {
    if (touch) return one.tap();
    await one.focus();
    await page.keyboard.press(key);
  };
}

type Named = { readonly id: string; readonly kind: string };
const jsonOf = (file: string) =>
  JSON.parse(readFileSync(join(ROOT, 'levels/04-otter-bank', file), 'utf8')) as unknown;

/** The list has a row for every part, device, reading and line of the record. */
async function listsAll(page: Page): Promise<void> {
  const { links, nodes, devices, instruments, record } = jsonOf('scenario.json') as Readonly<
    Record<'links' | 'nodes' | 'devices' | 'instruments' | 'record', readonly Named[]>>;
  const words = jsonOf('words.en.json') as Readonly<Record<string, string>>;
  const handled = /^(valve|three_way|pump|coupling|hand_pump)$/;
  const parts = [
    ...links.filter(({ kind }) => handled.test(kind)),
    ...nodes.filter(({ kind }) => kind === 'tank'), ...devices, ...record,
  ].map(({ id }) => words[`part.${id}`]!);
  expect(parts.length).toBeGreaterThan(60);
  await showAllReadings(page);
  const rows = await page.locator('#controls, #kit, #record').locator('.control-name')
    .allTextContents();
  const lower = new Set(rows.map((row) => row.toLowerCase()));
  expect(parts.filter((part) => !lower.has(part.toLowerCase()))).toEqual([]);
  const shown = (await readings(page).locator('.reading-name').allInnerTexts())
    .map((name) => name.toLowerCase());
  const names = instruments.map(({ id }) => words[`reading.${id}`]!.toLowerCase());
  expect(names.filter((name) => !shown.includes(name))).toEqual([]);
  await page.getByRole('button', { name: 'Fewer', exact: true }).click();
}

test('hands are put to everything, the slips hold, and the list is whole', async ({
  page, hasTouch,
}) => {
  await enterYard(page, JOB);
  await expect(page.locator('.stage canvas')).toBeVisible({ timeout: 30_000 });
  await setSpeed(page, 'freeze');
  expect(await sharedNames(page)).toEqual([]);
  if (hasTouch) await listsAll(page);
  const press = presser(page, hasTouch);
  for (const { hit, choice, then, axe } of THINGS) {
    await press(hits(page).getByRole('button', { name: new RegExp(`^${hit}, `) }));
    const slip = page.locator('.handle-slip');
    await press(slip.getByRole('button', { name: choice, exact: true }));
    const now = hits(page).locator('button[aria-expanded="true"]');
    await expect(now).toHaveAccessibleName(new RegExp(then));
    if (axe === true && !hasTouch) expect(await axeFaults(page, '.handle-slip')).toEqual([]);
  }
  await press(page.locator('.handle-slip').getByRole('button', { name: 'Close' }));
  await expect(page.locator('.handle-slip')).toHaveCount(0);
  const pump = hits(page).getByRole('switch', { name: 'Pump', exact: true });
  await press(pump);
  await expect(pump).toHaveAttribute('aria-checked', 'true');
  const hands = page.getByRole('region', { name: 'Your hands' });
  await press(hits(page).getByRole('button', { name: /^Barrel: put the marker/ }));
  await press(hits(page).getByRole('button', { name: /^Tap the loop gauge, / }));
  await press(hits(page).getByRole('button', { name: /^Tap the coil difference gauge, / }));
  await expect(hands).toContainText('barrel, loop gauge');
  await expect(hands).toContainText('coil difference gauge');
  const field = page.getByRole('textbox', { name: 'Test air found' });
  await field.fill('300');
  if (hasTouch) await press(page.getByRole('button', { name: 'Write down: test air found' }));
  else await field.press('Enter');
  await expect(page.locator('.record .written')).toContainText('300');
  await press(page.getByRole('button', { name: "I'm done" }));
  await expect(page.getByRole('dialog')).toContainText('not finished');
  await press(page.getByRole('button', { name: 'Hand it over' }));
  await press(page.getByRole('button', { name: 'Skip', exact: true }));
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(/Passed|Not yet/);
  if (!hasTouch) return;
  await press(page.getByRole('button', { name: /^Look again at / }).last());
  await expect(hits(page).getByRole('img', { name: /^Plug, / })).toBeVisible({ timeout: 30_000 });
});

const said = (page: Page) => page.getByRole('group', { name: 'What was just seen or heard' });

test('one goes down into a vault that was made safe, and home for a night', async ({
  page, hasTouch,
}) => {
  await enterYard(page, 'lapwing-school');
  await expect(page.locator('.stage canvas')).toBeVisible({ timeout: 30_000 });
  const press = presser(page, hasTouch);
  const hit = (name: string) => hits(page).getByRole('button', { name: new RegExp(`^${name}, `) });
  const places = page.getByRole('navigation', { name: 'Places on the drawing' });
  for (const [place, part] of [['Field', 'Valve of trench 2'], ['Ends', 'Loop return valve']]) {
    await press(places.getByRole('button', { name: place! }));
    await expect(hit(part!)).toBeInViewport({ ratio: 1 });
    await expect(places.locator('[aria-current]')).toHaveText(place!);
  }
  const choose = async (name: string, choice: string, key = 'Enter') => {
    await press(hit(name));
    await press(page.locator('.handle-slip').getByRole('button', { name: choice }), key);
  };
  await choose('Valve of trench 8', 'Valve of trench 8: shut', 'Space');
  await expect(said(page)).toContainText('someone has to be in there', { timeout: 20_000 });
  await expect(hit('Valve of trench 8')).toHaveAccessibleName('Valve of trench 8, open');
  await press(page.getByRole('button', { name: 'Tell the helper' }));
  await choose("Test of the vault's air", "Test of the vault's air: done");
  if (!hasTouch) expect(await axeFaults(page, '.dock')).toEqual([]);
  const hands = page.getByRole('region', { name: 'Your hands' });
  await expect(hands).toContainText("Helper: at the test of the vault's air");
  await press(page.getByRole('button', { name: 'Helper is listening' }), 'Space');
  await choose('Attendant at the hatch', 'Attendant at the hatch: done', 'Space');
  await expect(hands).toContainText('at the attendant at the hatch'); // Both at once.
  await press(page.getByRole('button', { name: '60 times', exact: true }));
  await expect(hands).toContainText('Helper: free', { timeout: 30_000 });
  await choose('Vault', 'Vault: inside');
  if (!hasTouch) expect(await axeFaults(page, '.handle-slip')).toEqual([]);
  await choose('Valve of trench 8', 'Valve of trench 8: shut');
  await expect(hit('Valve of trench 8')).toHaveAccessibleName(/, shut$/, { timeout: 30_000 });
  await expect(hit('Vault')).toHaveAccessibleName('Vault, inside');
  await expect(said(page)).not.toContainText('Something that must come first');
  await choose('Vault', 'Vault: outside');
  await expect(hit('Vault')).toHaveAccessibleName('Vault, outside', { timeout: 30_000 });
  await press(controlsList(page).getByRole('button', { name: 'Go home, back in 24 h' }));
  await expect(said(page)).toContainText('Gone home, for 24 h.');
  await expect(hands).toContainText('away, back in');
  if (!hasTouch) return; // Coming back is the same, and takes its time.
  await expect(said(page)).toContainText('Back at the plant.', { timeout: 60_000 });
  expect(await readClock(page)).toBeGreaterThan(24 * 3600);
  expect(await axeFaults(page, '.captions')).toEqual([]);
  await press(said(page).getByRole('button', { name: 'Understood' }).last());
  await expect(said(page)).not.toContainText('Back at the plant.');
  await expect(page.locator('.log')).toContainText('Back at the plant.');
});

test('the controls are learnt in ten steps', async ({ page, hasTouch }) => {
  const press = presser(page, hasTouch);
  await page.goto(CALM);
  await press(page.getByRole('link', { name: 'Learn the controls' }));
  const slip = page.getByRole('complementary', { name: 'Learn the controls' });
  const at = (n: number) => expect(slip).toContainText(`${n} of 10`, { timeout: 30_000 });
  await at(1);
  await expect(page.locator('.stage canvas')).toBeVisible({ timeout: 30_000 });
  await press(hits(page).getByRole('button', { name: /^Fill valve, / }));
  await press(page.locator('.handle-slip').getByRole('button', { name: 'Fill valve: open' }));
  await at(2);
  await press(controlsList(page).getByRole('button', { name: 'Waste valve: open' }));
  await at(3);
  await press(controlsList(page).getByRole('button', { name: 'Tap the discharge gauge' }));
  await at(4);
  await press(page.getByRole('button', { name: 'Freeze' }));
  await at(5);
  await press(page.getByRole('button', { name: '5 times', exact: true }));
  await at(6);
  await press(page.getByRole('button', { name: 'X-ray' }));
  await at(7);
  await page.getByRole('textbox', { name: 'What the gauge says' }).fill('0');
  await press(page.getByRole('button', { name: /^Write down: / }));
  await at(8);
  await press(page.getByRole('button', { name: 'Tell the helper' }));
  await press(controlsList(page).getByRole('button', { name: 'Return valve: open', exact: true }));
  await at(9);
  await press(page.getByRole('button', { name: 'Helper is listening' }));
  await press(controlsList(page).getByRole('button', { name: 'Fill valve: shut' }));
  await at(10);
  if (!hasTouch) expect(await axeFaults(page, '.lesson')).toEqual([]);
  await press(page.getByRole('button', { name: "I'm done" }));
  await press(page.getByRole('button', { name: 'Hand it over' }));
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('You know the controls');
  await press(page.getByRole('link', { name: 'All jobs', exact: true }));
  await expect(page.locator('.lesson-card')).toContainText('done');
});

test('a step can be left out', { tag: '@desktop' }, async ({ page }) => {
  await openJob(page, 'controls');
  const slip = page.getByRole('complementary', { name: 'Learn the controls' });
  for (let n = 1; n < 10; n++) {
    await expect(slip).toContainText(`${n} of 10`);
    await slip.getByRole('button', { name: 'Skip this' }).click();
  }
  await page.getByRole('button', { name: "I'm done" }).click();
  await page.getByRole('button', { name: 'Hand it over' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Some are left to try');
});
