import { localClockInstant, type LocalDay } from '../../src/time/local-day.ts';
import { FAULTS, isFaultKind, type Fault } from '../simulated-shed.ts';
import { EXIT } from './exit-code.ts';
import { Refusal } from './refusal.ts';
import { minuteOfDay } from './times.ts';

export const faultList = (): string =>
  Object.entries(FAULTS)
    .map(([kind, says]) => `  ${kind.padEnd(16)} ${says}`)
    .join('\n');

/** `pump-dead@13:00` or `pump-dead@13:00-15:00` on that local day. @throws Refusal */
export const faultFrom = (text: string, day: LocalDay): Fault => {
  const [kind, span, ...rest] = text.split('@');
  const [from, until, ...more] = (span ?? '').split('-');
  if (kind === undefined || from === undefined || from === '' || rest.length > 0 || more.length > 0) {
    throw new Refusal(
      `--fault: found "${text}"; allowed is a fault and a time, such as pump-dead@13:00.`,
      EXIT.usage,
    );
  }
  if (!isFaultKind(kind)) {
    throw new Refusal(`--fault: found "${kind}"; allowed are\n${faultList()}`, EXIT.usage);
  }
  const fromMillis = localClockInstant(day, minuteOfDay(from, '--fault'));
  const untilMillis = until === undefined ? Infinity : localClockInstant(day, minuteOfDay(until, '--fault'));
  if (untilMillis <= fromMillis) {
    throw new Refusal(`--fault: found "${text}"; the end must lie after the start.`, EXIT.usage);
  }
  return { kind, fromMillis, untilMillis };
};
