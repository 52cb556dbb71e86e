import { describe, expect, it } from 'vitest';
import {
  analogMessage,
  digitalPortMessage,
  stringMessage,
  versionMessage,
} from '../../../sim/board/firmata/bytes.ts';
import { createReportTrouble } from '../../../sim/campaign/report-trouble.ts';
import type { HostFaultKind } from '../../../sim/faults/injectors.ts';
import { seededDice } from '../../../sim/dice.ts';

const VERSION = versionMessage({ major: 2, minor: 8 });
const ANALOG = analogMessage(1, 700);
const PORT = digitalPortMessage(0, 0b0110);
const SAID = Uint8Array.from([...VERSION, ...ANALOG, ...stringMessage('so'), ...PORT]);

const troubleOf = (kind: HostFaultKind) => {
  const hits: HostFaultKind[] = [];
  const fault = { kind, amount: 0, fromMillis: 0, untilMillis: 600_000 };
  const trouble = createReportTrouble(
    { shed: [], beside: [], host: [fault], sensors: [] },
    seededDice(3),
    (hit) => hits.push(hit),
  );
  return { trouble, hits };
};

describe('trouble with the reports of a board', () => {
  it('loses about half of 400 reports and no answer', () => {
    const { trouble, hits } = troubleOf('samples-lost');
    const answers = SAID.length - ANALOG.length - PORT.length;
    let reports = 0;
    for (let second = 0; second < 200; second += 1) {
      const through = trouble(SAID, second * 1000);
      expect((through.length - answers) % 3).toBe(0);
      reports += (through.length - answers) / 3;
    }
    expect(reports).toBeGreaterThan(160);
    expect(reports).toBeLessThan(240);
    expect(hits.length).toBeGreaterThan(100);
  });

  it('says each report a second time 60 s later, behind what is said then, and no answer', () => {
    const { trouble, hits } = troubleOf('samples-repeated');
    expect([...trouble(SAID, 0)]).toEqual([...SAID]);
    expect([...trouble(Uint8Array.from(ANALOG), 59_999)]).toEqual([...ANALOG]);
    expect(hits).toEqual([]);
    expect([...trouble(Uint8Array.from(VERSION), 60_000)]).toEqual([...VERSION, ...ANALOG, ...PORT]);
    expect(hits).toEqual(['samples-repeated']);
    expect([...trouble(Uint8Array.from(VERSION), 61_000)]).toEqual([...VERSION]);
  });

  it('leaves every byte as it is when neither stands', () => {
    const { trouble, hits } = troubleOf('samples-lost');
    expect([...trouble(SAID, 600_000)]).toEqual([...SAID]);
    expect(hits).toEqual([]);
  });
});
