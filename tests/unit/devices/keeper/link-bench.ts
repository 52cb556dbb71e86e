import {
  openKeeperLink,
  type KeeperAsked,
  type KeeperLink,
} from '../../../../firmware-host/devices/keeper/keeper-link.ts';
import { frameIn } from '../../../../firmware-host/devices/keeper/frame.ts';
import { virtualTime } from '../../../../firmware-host/virtual-time.ts';
import type { Kept, Press } from '../../../../src/ports/board.ts';
import { afterSeconds, monotonicMillis } from '../../../../src/time/instant.ts';
import { asU16, framesIn, type Asked } from './board-side.ts';
import { CLAIM, createStub, DONE, type Stub, type StubState } from './keeper-stub.ts';

/** How long one direction takes for a frame, or that it loses it; several times: the line repeats it. */
export type Carried = (frame: readonly number[]) => readonly number[];

export interface LinkBench {
  readonly stub: Stub;
  readonly link: () => KeeperLink;
  /** What the link told its host, oldest first. */
  readonly told: (
    | { readonly kind: 'up'; readonly kept: Kept }
    | { readonly kind: 'down'; readonly why: string; readonly keeps: boolean }
    | { readonly kind: 'lost'; readonly why: string }
  )[];
  readonly presses: Press[];
  readonly now: () => number;
  readonly isUp: () => boolean;
  /** Lets time pass with a beat, and a completed tick where `ticks` says so, each second. */
  readonly pass: (seconds: number, ticks?: 'ticks' | 'no-ticks', each?: () => void) => void;
  /** Each completed tick. */
  readonly ticked: number[];
  /** What the host wrote, with the epoch of the newest claim of which it had been told by then. */
  readonly written: (Asked & { readonly at: number; readonly claimed: number | null })[];
  /** Changes how the line carries. */
  readonly line: { toBoard: Carried; toHost: Carried };
}

export const AT_ONCE: Carried = () => [1];
export const START = 1_000_000;

/** A board with a keeper at the end of a line. `reopening`: a line that is lost is opened anew, as the host does. */
export const linkBench = (
  change: Partial<StubState> = {},
  asked: Partial<KeeperAsked> = {},
  reopening: 'reopening' | 'once' = 'once',
): LinkBench => {
  const time = virtualTime(START);
  const { timers } = time;
  const stub = createStub(timers.now, change);
  const told: LinkBench['told'] = [];
  const presses: Press[] = [];
  const ticked: number[] = [];
  const written: LinkBench['written'] = [];
  let claimed: number | null = null;
  const line = { toBoard: AT_ONCE, toHost: AT_ONCE };
  const carry = (through: Carried, frame: readonly number[], arrives: () => void): void => {
    for (const millis of through(frame)) timers.setTimeout(arrives, millis);
  };
  let link: KeeperLink;
  const open = (since: Partial<KeeperAsked>): void => {
    let over = false;
    // What the board answers to an earlier line goes to nobody.
    const heard = (answer: readonly number[]): void => {
      const frame = frameIn(answer.slice(2, -1));
      if (frame === null || over) return;
      const isClaim = frame.type === 0x40 && frame.body[0] === CLAIM && frame.body[1] === DONE;
      const epoch = asU16([...frame.body], 2);
      // An answer that comes late and twice is of an older claim.
      if (isClaim && stub.state.claimed.indexOf(epoch) > stub.state.claimed.indexOf(claimed ?? -1))
        claimed = epoch;
      link.heard(frame);
    };
    link = openKeeperLink({
      use: 'drive',
      setup: Uint8Array.from(stub.state.setup),
      misfitWhy: null,
      table: () => null,
      before: null,
      claimFrom: monotonicMillis(0),
      timers,
      write: (bytes) => {
        for (const question of framesIn(bytes)) {
          written.push({ ...question, at: timers.now(), claimed });
          carry(line.toBoard, [...bytes], () => {
            const answer = stub.answer(question);
            if (answer !== null)
              carry(line.toHost, answer, () => {
                heard(answer);
              });
          });
        }
      },
      up: (kept) => told.push({ kind: 'up', kept }),
      down: (why, keeps) => told.push({ kind: 'down', why, keeps }),
      lost: (why) => {
        over = true;
        told.push({ kind: 'lost', why });
        if (reopening === 'once') return;
        const before = link.memory();
        timers.setTimeout(() => {
          open({ before, claimFrom: afterSeconds(timers.now(), 2) });
        }, 50);
      },
      pressed: (press) => presses.push(press),
      ...asked,
      ...since,
    });
  };
  open({});
  const isUp = (): boolean => told.at(-1)?.kind === 'up';
  const pass: LinkBench['pass'] = (seconds, ticks = 'ticks', each = () => undefined) => {
    for (let second = 0; second < seconds; second += 1) {
      const start = timers.now();
      time.advance(monotonicMillis(start + 500));
      if (ticks === 'ticks' && isUp()) {
        each();
        ticked.push(timers.now());
        link.alive({ minute: 720, second: second % 60 });
      }
      time.advance(afterSeconds(start, 1));
      link.beat();
      stub.live();
    }
  };
  return { stub, link: () => link, told, presses, now: timers.now, isUp, pass, ticked, written, line };
};

/** A bench on which the pump has been claimed. */
export const ownedBench = (change: Partial<StubState> = {}, asked: Partial<KeeperAsked> = {}): LinkBench => {
  const bench = linkBench(change, asked);
  bench.pass(2);
  if (!bench.isUp()) throw new Error(`not up: ${JSON.stringify(bench.told)}`);
  return bench;
};

export const heardTypes = ({ stub }: LinkBench, type: number): readonly (readonly number[])[] =>
  stub.heard.filter((asked) => asked.type === type).map(({ body }) => body);
