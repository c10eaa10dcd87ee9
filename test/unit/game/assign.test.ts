// Assignments as links and files: whole, in range, and the same for everybody who opens them.
import { describe, expect, it } from 'vitest';
import { deflateSync, strToU8 } from 'fflate';
import { HERON } from '../../support/player.ts';
import { handInName } from '../../../game/assign/hand-in.tsx';
import {
  packedIn, packTicket, plainLabel, readTicket, seedOf, ticketLink, unpackTicket, type Ticket,
} from '../../../game/assign/ticket.ts';
import { ticketOf, type Draft } from '../../../game/instructor/maker.tsx';
import { ENGINE, scenarioHash } from '../../../sim/index.ts';

const DRAFT: Draft = {
  name: 'Week 3, yard A', job: HERON.id, phase: '', mode: 'assess', seed: 'own', seed_number: '',
  attempts: '',
};
const ID = '0123456789abcdef';

function made(change: Partial<Draft> = {}): Ticket {
  const ticket = ticketOf({ ...DRAFT, ...change }, ID);
  if (typeof ticket === 'string') throw new Error(ticket);
  return ticket;
}

const base64url = (text: string): string =>
  Buffer.from(deflateSync(strToU8(text))).toString('base64url');

describe('a ticket', () => {
  it('is made of what was typed, or says what is wrong with it', () => {
    expect(made()).toEqual({
      format: 1, kind: 'assignment', id: ID, name: 'Week 3, yard A', job: HERON.id, phase: null,
      mode: 'assess', seed: null, attempts: null, engine: ENGINE,
      scenario_hash: scenarioHash(HERON.scenario),
    });
    expect(made({ seed: 'fixed', seed_number: '7', attempts: '2' })).toMatchObject({
      seed: 7, attempts: 2,
    });
    expect(made({ seed: 'same' })).toMatchObject({ seed: null, again: 'same' });
    const wrong = [
      [{ name: '  ' }, 'instructor.make_name_needed'],
      [{ seed: 'fixed', seed_number: '4294967296' }, 'instructor.make_seed_wrong'],
      [{ seed: 'fixed', seed_number: '1.5' }, 'instructor.make_seed_wrong'],
      [{ attempts: '0' }, 'instructor.make_attempts_wrong'],
      [{ attempts: '21' }, 'instructor.make_attempts_wrong'],
    ] as const;
    for (const [change, key] of wrong) expect(ticketOf({ ...DRAFT, ...change }, ID)).toBe(key);
  });

  it('goes through a link and comes back the same, letters of any kind included', () => {
    for (const name of ['Week 3', 'Übung – «été», 3/4 & <b>', 'x'.repeat(80)]) {
      const ticket = made({ name });
      const link = ticketLink('https://example.org/yard/', ticket);
      expect(link).toMatch(/^https:\/\/example\.org\/yard\/#a=[\w-]+$/);
      expect(link.length).toBeLessThan(400);
      expect(unpackTicket(packedIn(link) ?? '')).toEqual(ticket);
      expect(unpackTicket(packedIn(` see ${link} `) ?? '')).toEqual(ticket);
      const same = made({ name, seed: 'same' });
      expect(unpackTicket(packedIn(ticketLink('x', same)) ?? '')).toEqual(same);
    }
  });

  it('is refused when the link was cut, and when anything in it is out of range', () => {
    const packed = packTicket(made());
    for (let k = 0; k < packed.length; k += 7) expect(unpackTicket(packed.slice(0, k))).toBeNull();
    const good = made();
    const bad: object[] = [
      { format: 2 }, { kind: 'attempt' }, { id: 'x' }, { name: '' }, { name: 'x'.repeat(81) },
      { job: '../x' }, { phase: 'lunch' }, { mode: 'learn' }, { seed: -1 }, { seed: 1.5 },
      { seed: 2 ** 32 }, { attempts: 0 }, { attempts: 21 }, { scenario_hash: 'z' },
      { again: 'other' }, { again: 'same', seed: 7 },
    ];
    for (const change of bad) {
      const json = { ...good, ...change };
      expect(readTicket(json), JSON.stringify(change)).toBeNull();
      expect(unpackTicket(base64url(JSON.stringify(json)))).toBeNull();
    }
    expect(unpackTicket(base64url(JSON.stringify(good)))).toEqual(good);
    // A few bytes that would unpack to a megabyte.
    expect(unpackTicket(base64url(' '.repeat(1e6)))).toBeNull();
    // What is not part of a ticket does not come along.
    expect(readTicket({ ...good, extra: 1 })).toEqual(good);
  });
});

describe('the seed', () => {
  it('is the one that was fixed, or one of the trainee and the attempt', () => {
    expect(seedOf(made({ seed: 'fixed', seed_number: '7' }), 'Ann', 4)).toBe(7);
    const own = made();
    const seeds = ['Ann', 'Bo', 'Cy'].flatMap((who) => [1, 2, 3].map((n) => seedOf(own, who, n)));
    expect(new Set(seeds).size).toBe(9);
    expect(seeds.every((seed) => Number.isInteger(seed) && seed >= 0 && seed < 2 ** 32)).toBe(true);
    expect(seedOf(own, ' ann ', 1)).toBe(seedOf(own, 'Ann', 1));
    expect(seedOf({ ...own, id: 'fedcba9876543210' }, 'Ann', 1)).not.toBe(seedOf(own, 'Ann', 1));
    const same = made({ seed: 'same' });
    expect(seedOf(same, 'Ann', 1)).toBe(seedOf(same, 'ann', 3));
    expect(new Set(['Ann', 'Bo', 'Cy'].map((who) => seedOf(same, who, 1))).size).toBe(3);
    expect(plainLabel('  Ann\u00a0 B. ')).toBe('ann b.');
  });
});

describe('the file to hand in', () => {
  it('is named by the assignment and the label', () => {
    expect(handInName('Week 3: purge', 'Ánn B.')).toBe('loopyard-hand-in-week-3-purge-ann-b.json');
    expect(handInName('?', '!')).toBe('loopyard-hand-in.json');
  });
});
