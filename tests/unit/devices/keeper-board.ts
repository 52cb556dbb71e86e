import { PIN_MODE } from '../../../sim/board/firmata/bytes.ts';
import type { FirmataPeer } from '../../../sim/board/firmata/peer.ts';
import { UNO_PIN_TABLE } from '../../../sim/board/firmata/uno-pins.ts';
import { onDesk, type Desk } from '../board/desk.ts';
import { framesIn, u16, u32 } from './keeper/board-side.ts';
import { createStub, type Stub, type StubState } from './keeper/keeper-stub.ts';

/** Pins of the setup: outputs of the keeper, and its contacts, by docs/board-protocol.md, "Firmata as this board speaks it". */
export const KEEPER_OUTPUTS: readonly number[] = [7, 5, 6];
const KEEPER_CONTACTS: readonly number[] = [4, 8, 9];
const BOOT_MILLIS = 1500;

const PINS = UNO_PIN_TABLE.map((spec, pin) => {
  if (KEEPER_OUTPUTS.includes(pin)) return { ...spec, abilities: [] };
  if (!KEEPER_CONTACTS.includes(pin)) return spec;
  return { ...spec, abilities: spec.abilities.filter(({ mode }) => mode === PIN_MODE.pullUp) };
});

export interface KeeperBoard extends Desk {
  readonly stub: Stub;
  /** Every byte that it was sent. */
  readonly heard: number[];
  readonly opened: () => number;
}

/** A board on a desk that speaks Firmata and has a keeper; a reset takes the pump from whoever has it. */
export const keeperBoard = (now: () => number, change: Partial<StubState> = {}): KeeperBoard => {
  const desk = onDesk({ firmwareName: 'RillkeeperBoard', bootMillis: BOOT_MILLIS, pins: PINS });
  const stub = createStub(now, change);
  const heard: number[] = [];
  let answers: number[] = [];
  let opened = 0;
  const wasReset = (at: number): void => {
    const { state } = stub;
    state.bootAt = at + BOOT_MILLIS;
    state.owner = 'keeper';
    state.epoch += 1;
    state.pump = null;
    state.resets += 1;
    state.log.push([...u32(0), 2, 2, ...u16(state.resets)]);
    answers = [];
  };
  const peer: FirmataPeer = {
    ...desk.peer,
    open: (at) => {
      opened += 1;
      wasReset(at);
      desk.peer.open(at);
    },
    reset: (at) => {
      wasReset(at);
      desk.peer.reset(at);
    },
    receive: (bytes, at) => {
      for (const byte of bytes) heard.push(byte);
      desk.peer.receive(bytes, at);
      if (at < stub.state.bootAt) return;
      for (const asked of framesIn(bytes)) answers.push(...(stub.answer(asked) ?? []));
    },
    take: () => {
      const said = [...desk.peer.take(), ...answers];
      answers = [];
      return Uint8Array.from(said);
    },
  };
  return { ...desk, peer, stub, heard, opened: () => opened };
};
