import { describe, expect, it } from 'vitest';
import { RIBEIRA, rillkeeper } from './rillkeeper.ts';

interface Data {
  readonly verdict: { readonly kind: string; readonly says: string };
  readonly faultCall: {
    readonly firstAlarmAt: string;
    readonly firstHighAlarmAt: string;
    readonly mayWiltFrom: string;
    readonly leadMinutes: number;
    readonly lateRuns: number;
  };
  readonly advice: readonly string[];
  readonly alarms: readonly { readonly at: string; readonly alarm: string; readonly priority: string }[];
  readonly benches: readonly {
    readonly mayWiltFrom: string | null;
    readonly timeLeftMinutes: number | null;
    readonly oneMissMarginPoints: number | null;
  }[];
}

const dead = ['rehearse', RIBEIRA, '--draws', '1', '--fault', 'pump-dead@13:00'] as const;
const text = await rillkeeper(...dead);
const json = await rillkeeper(...dead, '--json');
const data = JSON.parse(json.stdout) as Data;
const at = (moment: string): number => Date.parse(moment);
/** In July the clocks of Lisbon are an hour ahead of UTC. */
const lisbon = (clock: string, date = '2026-07-15'): number => Date.parse(`${date}T${clock}:00+01:00`);

describe('rehearse with a pump that dies at 13:00 on a hot day', () => {
  it('exits 1, as text and as data', () => {
    expect(text.code).toBe(1);
    expect(json.code).toBe(1);
    expect(data.verdict.kind).toBe('may-wilt');
  });

  it('shows the alarm with its time, since when no water came, and where to look first', () => {
    const flat = text.stdout.replaceAll(/\s+/g, ' ');
    expect(flat).toContain('Fault: pump-dead from 13:00 on, not mended.');
    expect(flat).toMatch(
      /13:\d\d Pump ran, no water came back since 1[23]:\d\d\. Bench \d may begin to wilt from 1\d:\d\d/,
    );
    expect(flat).toContain('Look at the filter first, then the pump inlet');
  });

  it('raises the missed flood after 13:00 and before 14:01', () => {
    // The flood under way at 13:00 ends by 13:20, the rest is 25 min at most, the flood after it is called
    // missed 15 min after its start at the latest (`check` says so), the alarm a minute after that.
    const missed = data.alarms.find(({ alarm }) => alarm === 'missed-flood')!;
    expect(missed.priority).toBe('high');
    expect(at(missed.at)).toBeGreaterThan(lisbon('13:00'));
    expect(at(missed.at)).toBeLessThan(lisbon('14:01'));
  });

  it('says in the verdict how long before the first wilting the alarm of high priority comes', () => {
    const { firstAlarmAt, firstHighAlarmAt, mayWiltFrom, leadMinutes, lateRuns } = data.faultCall;
    expect(leadMinutes).toBe(Math.floor((at(mayWiltFrom) - at(firstHighAlarmAt)) / 60_000));
    expect(leadMinutes).toBeGreaterThan(0);
    expect(lateRuns).toBe(0);
    expect(at(firstAlarmAt)).toBeLessThanOrEqual(at(firstHighAlarmAt));
    expect(data.verdict.says).toContain(`${leadMinutes} min before that.`);
    expect(text.stdout.replaceAll(/\s+/g, ' ')).toContain(data.verdict.says);
  });

  it('advises no change of the day plan, and leaves out what one more failure would do', () => {
    expect(data.advice).toEqual([]);
    expect(text.stdout).not.toMatch(/Look at "|rehearse again|one-miss|time left/);
    for (const bench of data.benches) {
      expect(bench.timeLeftMinutes).toBeNull();
      expect(bench.oneMissMarginPoints).toBeNull();
    }
  });
});

describe('rehearse with other faults', () => {
  it('sees that a pump dead from 22:00 on wilts the crop on the day after, and exits 1', async () => {
    const late = await rillkeeper(
      'rehearse',
      RIBEIRA,
      '--draws',
      '0',
      '--fault',
      'pump-dead@22:00',
      '--json',
    );
    const { faultCall } = JSON.parse(late.stdout) as Data;
    expect(late.code).toBe(1);
    expect(at(faultCall.mayWiltFrom)).toBeGreaterThan(lisbon('00:00', '2026-07-16'));
    expect(faultCall.leadMinutes).toBeGreaterThan(0);
  });

  it('holds, with an alarm all the same, where the pump is mended after two hours of the early morning', async () => {
    const mended = await rillkeeper('rehearse', RIBEIRA, '--draws', '0', '--fault', 'pump-dead@05:00-07:00');
    expect(mended.code).toBe(0);
    expect(mended.stdout).toContain('Fault: pump-dead from 05:00 to 07:00.');
    expect(mended.stdout).toMatch(
      /No bench wilts by the end of the day after\. The first alarm comes at 0[56]:\d\d\./,
    );
  });
});
