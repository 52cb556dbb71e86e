import { SETUP_BYTES } from '../../../src/farm/keeper-setup.ts';
import { assert } from '../../../src/units/assertion.ts';
import { bodyReader } from './body-reader.ts';
import { SETUP_PARTS, type SetupField, type SetupPart } from './setup-fields.ts';

/** First byte of a setup block as this program knows it, and of a flash that was never set up. */
const SCHEMA = 1;
const BLANK = 0xff;

export const FLASH_AGAIN = 'rillkeeper board flash FARM --board PORT';

/** Whether the watchdog runs is chosen when a board is flashed, by its bootloader: the farm file says nothing of it. */
const WATCHDOG_AT = 38;

/** One thing in which a board and the farm file disagree. */
export interface SetupDifference {
  readonly says: string;
  /** Key of the farm file that would make them agree; null where flashing alone does. */
  readonly key: string | null;
}

export const isSetUp = (block: Uint8Array): boolean => block[0] !== undefined && block[0] !== BLANK;

/** Whether a board was flashed to go on without its watchdog. */
export const isWithoutWatchdog = (block: Uint8Array): boolean => isSetUp(block) && block[WATCHDOG_AT] === 1;

const valueOf = (block: Uint8Array, { at, bytes }: SetupField): number => {
  const { u8, u16 } = bodyReader(block);
  return bytes === 1 ? u8(at) : u16(at);
};

const isFitted = (block: Uint8Array, { fitted }: SetupPart): boolean =>
  fitted === null || block[fitted.at] !== fitted.none;

const partDifferences = (
  board: Uint8Array,
  farm: Uint8Array,
  part: SetupPart,
): readonly SetupDifference[] => {
  const { name, key, fields } = part;
  const different = fields.filter((field) => valueOf(board, field) !== valueOf(farm, field));
  if (different.length === 0) return [];
  const onBoard = isFitted(board, part);
  if (onBoard !== isFitted(farm, part)) {
    const says = onBoard
      ? `the board was flashed for ${name}; the farm file has none`
      : `the board was flashed without ${name}; the farm file has one`;
    return [{ says, key }];
  }
  // Numbers of a part that neither has mean nothing, and must be the same all the same.
  const noun = onBoard ? name : `no ${name}`;
  return different.map((field) => ({
    says: `the board was flashed for ${noun} ${field.says(valueOf(board, field))}; by the farm file it is ${field.says(valueOf(farm, field))}`,
    key: field.key,
  }));
};

const KNOWN_BYTES = new Set([
  WATCHDOG_AT,
  ...SETUP_PARTS.flatMap(({ fields }) =>
    fields.flatMap(({ at, bytes }) => (bytes === 1 ? [at] : [at, at + 1])),
  ),
]);

/** Bytes of no part: the sip, and what a newer program may have put there. */
const otherDifferences = (board: Uint8Array, farm: Uint8Array): readonly SetupDifference[] =>
  [...board].flatMap((found, at) => {
    const wanted = farm[at] ?? 0;
    if (found === wanted || KNOWN_BYTES.has(at)) return [];
    return [{ says: `byte ${at} of the board's setup is ${found}; this program gives ${wanted}`, key: null }];
  });

/**
 * Everything in which the setup of a board differs from the one that the farm file gives.
 * @throws BrokenAssertion when a block has not 72 bytes
 */
export const setupDifferences = (board: Uint8Array, farm: Uint8Array): readonly SetupDifference[] => {
  for (const block of [board, farm]) assert(block.length === SETUP_BYTES, `a setup of ${block.length} bytes`);
  const [schema = BLANK] = board;
  // Of another schema every other byte may mean something else.
  if (schema !== SCHEMA)
    return [
      {
        says: `the board was flashed with a setup of schema ${schema}; this program knows ${SCHEMA}`,
        key: null,
      },
    ];
  return [
    ...SETUP_PARTS.flatMap((part) => partDifferences(board, farm, part)),
    ...otherDifferences(board, farm),
  ];
};

/** Why a board with these differences is not driven, and what to change. */
export const setupWhy = (differences: readonly SetupDifference[]): string => {
  const keys = [...new Set(differences.flatMap(({ key }) => (key === null ? [] : [key])))];
  const change = keys.length === 0 ? 'flash' : `change ${keys.join(', ')}, or flash`;
  return `${differences.map(({ says }) => says).join('. ')}. What to do: ${change} the board again: ${FLASH_AGAIN}`;
};
