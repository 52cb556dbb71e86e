import fc from 'fast-check';
import { linkStep } from '../../../firmware-host/devices/keeper/link-step.ts';
import {
  stateAtOpening,
  type LinkEvent,
  type LinkState,
  type Phase,
} from '../../../firmware-host/devices/keeper/link-state.ts';
import { NO_LOG } from '../../../firmware-host/devices/keeper/log-memory.ts';
import type { HostMessage } from '../../../firmware-host/devices/keeper/host-message.ts';
import { wishAt } from '../../../firmware-host/devices/keeper/pump-wish.ts';
import { statusIn, STATUS_BYTES } from '../../../firmware-host/devices/keeper/status.ts';
import { afterSeconds, monotonicMillis } from '../../../src/time/instant.ts';
import { seconds } from '../../../src/units/quantity.ts';
import { stubSetup } from '../../unit/devices/keeper/keeper-stub.ts';

/** One event of a script, in the words that host_script.cpp reads, with what they mean. */
export type ScriptEvent =
  | { readonly kind: 'begin' | 'second' | 'off' | 'hold' | 'release' | 'press' | 'let-go' }
  | { readonly kind: 'on'; readonly longest: number }
  | {
      readonly kind: 'status';
      /** The newest open question about the state, or the one before it; 0: none that is open. */
      readonly asked: 0 | 1 | 2;
      readonly owner: number;
      readonly epoch: number;
      readonly left: number;
      readonly held: number;
      /** 1: from before the last long press of the button. */
      readonly pressed: number;
    }
  | {
      readonly kind: 'ack';
      readonly of: 'claim' | 'pump' | 'hold';
      readonly result: number;
      readonly value: number;
    };

export const lineOf = (event: ScriptEvent): string => {
  switch (event.kind) {
    case 'on':
      return `on ${event.longest}`;
    case 'status':
      return `status ${event.asked} ${event.owner} ${event.epoch} ${event.left} ${event.held} ${event.pressed}`;
    case 'ack':
      return `ack ${event.of} ${event.result} ${event.value}`;
    case 'begin':
    case 'second':
    case 'off':
    case 'hold':
    case 'release':
    case 'press':
    case 'let-go':
      return event.kind;
  }
};

const RESULTS = ['done', 'stale', 'resting', 'held'] as const;
const status = fc.record({
  kind: fc.constant('status' as const),
  asked: fc.constantFrom<0 | 1 | 2>(0, 1, 1, 1, 1, 2),
  owner: fc.constantFrom(0, 1, 1, 1),
  epoch: fc.constantFrom(1, 1, 1, 2),
  left: fc.constantFrom(0, 0, 1, 4, 8, 12),
  held: fc.constantFrom(0, 0, 0, 5),
  pressed: fc.constantFrom(0, 0, 1),
});
const claimed = fc.record({
  kind: fc.constant('ack' as const),
  of: fc.constant('claim' as const),
  result: fc.constantFrom(0, 0, 0, 1),
  value: fc.constant(1),
});
const pumped = fc.record({
  kind: fc.constant('ack' as const),
  of: fc.constantFrom('pump' as const, 'pump' as const, 'hold' as const),
  result: fc.constantFrom(0, 0, 1, 2, 3),
  // A start that is granted is granted a second at least.
  value: fc.integer({ min: 1, max: 9 }),
});
const word = fc.record({
  kind: fc.constantFrom<'off' | 'hold' | 'release' | 'press' | 'let-go' | 'begin'>(
    'off',
    'off',
    'hold',
    'release',
    'press',
    'let-go',
    'begin',
  ),
});
const on = fc.record({ kind: fc.constant('on' as const), longest: fc.integer({ min: 1, max: 12 }) });
const second = fc.constant({ kind: 'second' } as const);

/** A hand-shake that succeeds, then anything. */
const opened: readonly ScriptEvent[] = [
  { kind: 'begin' },
  { kind: 'status', asked: 1, owner: 0, epoch: 0, left: 0, held: 0, pressed: 0 },
  { kind: 'ack', of: 'claim', result: 0, value: 1 },
  { kind: 'status', asked: 1, owner: 1, epoch: 1, left: 0, held: 0, pressed: 0 },
];
const anything: fc.Arbitrary<ScriptEvent> = fc.oneof(
  { weight: 8, arbitrary: second },
  { weight: 8, arbitrary: status },
  { weight: 2, arbitrary: claimed },
  { weight: 4, arbitrary: pumped },
  { weight: 3, arbitrary: on },
  { weight: 1, arbitrary: word },
);
export const script: fc.Arbitrary<readonly ScriptEvent[]> = fc
  .tuple(
    fc.constantFrom<readonly ScriptEvent[]>(opened, opened, [{ kind: 'begin' }]),
    fc.array(anything, { minLength: 40, maxLength: 120 }),
  )
  .map(([before, after]) => [...before, ...after]);

const PHASE: Readonly<Record<Phase['kind'], number>> = {
  hello: 1,
  status: 1,
  log: 1,
  claim: 2,
  settle: 3,
  own: 4,
  wait: 5,
  refused: 6,
  look: 6,
};
const DEAD = 0;
const SETUP = Uint8Array.from(stubSetup());
const ASKED = { use: 'drive', setup: SETUP, misfitWhy: null } as const;
const HOLD_SECONDS = 14_400;

const wordOf = (message: HostMessage, presses: number): string | null => {
  switch (message.kind) {
    case 'hello':
    case 'log-get':
    case 'table-get':
    case 'table-put':
      return null;
    case 'claim':
    case 'heartbeat':
      return `${message.kind} ${message.epoch}`;
    case 'pump':
      return message.on ? `on ${message.longestSeconds}` : 'off';
    case 'hold':
      return `${message.seconds === 0 ? 'release' : 'hold'} ${message.longPresses === presses ? 0 : 1}`;
    case 'status':
    case 'let-go':
      return message.kind;
  }
};

const statusFrame = (
  event: Extract<ScriptEvent, { kind: 'status' }>,
  uptime: number,
  presses: number,
): LinkEvent => {
  const body = new Uint8Array(STATUS_BYTES);
  const view = new DataView(body.buffer);
  view.setUint16(0, event.epoch, true);
  body[2] = event.owner;
  view.setUint32(3, uptime, true);
  body[7] = event.left > 0 ? 1 : 0;
  view.setUint16(11, event.left, true);
  view.setUint16(19, event.held, true);
  view.setUint16(47, presses - event.pressed, true);
  const read = statusIn(body);
  if (read === null) throw new Error('a status that the host does not read');
  return { kind: 'frame', seq: 0, message: { kind: 'status', status: read } };
};

/** What the host's own state machine says to each event, and in which phase it is then, as host_script.cpp prints it. */
export const spokenBy = (events: readonly ScriptEvent[], first: number): readonly string[] => {
  const lines: string[] = [];
  let number = first;
  let now = monotonicMillis(1_000_000);
  let state: LinkState | null = null;
  let presses = 1;

  const step = (event: LinkEvent): void => {
    if (state === null) return;
    const next = linkStep(state, event, ASKED, now);
    // The epochs of a script are no life of a board: the host must not take them for a loss of power.
    state = { ...next.state, log: { ...next.state.log, before: null } };
    for (const effect of next.effects) {
      if (effect.kind === 'send') {
        const said = wordOf(effect.message, presses);
        if (said !== null) lines.push(`${number} ${said}`);
        // The hello is answered at once: the model begins behind it.
        if (effect.message.kind === 'hello')
          step({
            kind: 'frame',
            seq: effect.seq,
            message: {
              kind: 'hello',
              protocol: { major: 1, minor: 0 },
              firmware: { major: 1, minor: 0 },
              setup: SETUP,
            },
          });
      }
      if (effect.kind === 'want-table') step({ kind: 'table', table: null });
      if (effect.kind === 'lost') open();
    }
  };
  const open = (): void => {
    // All of the log has been read.
    state = stateAtOpening({ ...NO_LOG, next: 0 });
    step({ kind: 'begin' });
  };
  const seqOf = (kinds: readonly HostMessage['kind'][], back: number): number => {
    const open = state?.questions.filter(({ message }) => kinds.includes(message.kind)) ?? [];
    return open.at(-back)?.seq ?? ((state?.nextSeq ?? 0) + 100) % 256;
  };
  const secondPasses = (): void => {
    now = afterSeconds(now, 1);
    if (state?.phase.kind === 'own') {
      const { pump } = state.phase;
      // The controller stops what has had its time.
      if (pump.kind === 'on' && wishAt(pump, now).kind === 'off')
        step({ kind: 'command', command: { kind: 'pump-off' } });
      step({ kind: 'alive', time: 'unknown' });
      step({ kind: 'beat' });
      return;
    }
    step({ kind: 'beat' });
    step({ kind: 'due' });
  };

  for (const event of events) {
    switch (event.kind) {
      case 'begin':
        open();
        break;
      case 'second':
        secondPasses();
        break;
      case 'on':
        step({ kind: 'command', command: { kind: 'pump-on', longest: seconds(event.longest) } });
        break;
      case 'off':
        step({ kind: 'command', command: { kind: 'pump-off' } });
        break;
      case 'hold':
        step({ kind: 'command', command: { kind: 'hold', longest: seconds(HOLD_SECONDS) } });
        break;
      case 'release':
        step({ kind: 'command', command: { kind: 'release' } });
        break;
      case 'press':
        presses += 1;
        break;
      case 'let-go':
        step({ kind: 'let-go' });
        state = null;
        break;
      case 'status': {
        const frame = statusFrame(event, Math.floor(now / 1000), presses);
        const seq = event.asked === 0 ? 999 : seqOf(['status', 'heartbeat'], event.asked);
        step({ ...frame, seq } as LinkEvent);
        break;
      }
      case 'ack': {
        const type = { claim: 3, pump: 5, hold: 6 }[event.of];
        const result = RESULTS[event.result] ?? 'done';
        step({
          kind: 'frame',
          seq: seqOf([event.of], 1),
          message: { kind: 'ack', type, result, value: event.value },
        });
        break;
      }
    }
    const phase = (state as LinkState | null)?.phase.kind;
    lines.push(`${number} phase ${phase === undefined ? DEAD : PHASE[phase]}`);
    number += 1;
  }
  return lines;
};
