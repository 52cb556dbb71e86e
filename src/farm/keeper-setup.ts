import { dividerCounts } from '../physics/divider-counts.ts';
import { betaOhms, steinhartHartOhms } from '../physics/thermistor.ts';
import { bounded } from '../units/bounded.ts';
import type { Farm, Wiring } from './farm.ts';
import { setupBytes, type BoardSetup, type SetupContact } from './setup-bytes.ts';

export { readSetup } from './read-setup.ts';
export { SETUP_BYTES, type BoardSetup } from './setup-bytes.ts';

/** What a board has to know of the farm before anybody speaks to it: docs/board-protocol.md, "Setup". */

/** A sip draws the pipes full and is over before a pump that runs dry gets hot. */
const SIP_SECONDS = 20;
/** Over which the board counts the pulses of a meter. */
const PULSE_SECONDS = 15;
const PULSES_MAX = 255;
/** Share of the usual return above which a meter counts as seeing water: as for the host. */
export const WATER_SHARE = 0.25;
const COUNTS_MAX = 1023;

type Contact = NonNullable<Wiring['tankFloat']>;
type Thermistor = NonNullable<Wiring['airThermistor']>;

const contactOf = ({ pin, reads }: Contact): SetupContact => ({ pin, level: reads });
const optionalContact = (contact: Contact | undefined): SetupContact | null =>
  contact === undefined ? null : contactOf(contact);

/** `A3` → 3 */
const channelOf = (pin: string): number => Number(pin.slice(1));

/** Pulses at a share of the farm's usual return; where the share is no whole number more count, never fewer. */
const pulsesAreWater = ({ benches }: Farm, pulsesPerLitre: number): number => {
  const litresPerMinute = benches.reduce((sum, bench) => sum + bench.litresPerMinute, 0);
  const pulses = (WATER_SHARE * litresPerMinute * pulsesPerLitre * PULSE_SECONDS) / 60;
  // A sum of decimals may lie a breath above the whole number that it stands for.
  return bounded(Math.ceil(pulses - 1e-9), 1, PULSES_MAX);
};

const returnFlowOf = (farm: Farm, { returnFlow }: Wiring): BoardSetup['returnFlow'] => {
  if (returnFlow === undefined) return null;
  return 'pulsesPerLitre' in returnFlow
    ? { kind: 'meter', pin: returnFlow.pin, pulsesAreWater: pulsesAreWater(farm, returnFlow.pulsesPerLitre) }
    : { kind: 'switch', ...contactOf(returnFlow) };
};

const pumpCurrentOf = ({ pumpCurrent }: Wiring): BoardSetup['pumpCurrent'] => {
  if (pumpCurrent === undefined) return null;
  return 'drawsAboveCounts' in pumpCurrent
    ? {
        kind: 'analog',
        channel: channelOf(pumpCurrent.pin),
        aboveCounts: Math.ceil(pumpCurrent.drawsAboveCounts),
      }
    : { kind: 'contact', ...contactOf(pumpCurrent) };
};

/** The count that still reads as hot; the fraction between two goes to the hot side. */
const thermistorOf = (
  part: Thermistor,
  referenceCelsius: number,
): NonNullable<BoardSetup['airThermistor']> => {
  const { steinhartHart, fixedOhms, wired } = part;
  const ohms =
    steinhartHart === undefined
      ? betaOhms(referenceCelsius, part)
      : steinhartHartOhms(referenceCelsius, steinhartHart);
  const counts = dividerCounts(ohms, { fixedOhms, thermistor: wired });
  const rise = wired === 'to-reference';
  return {
    channel: channelOf(part.pin),
    counts: rise ? 'rise-with-heat' : 'fall-with-heat',
    hotFromCounts: bounded(rise ? Math.floor(counts) : Math.ceil(counts), 0, COUNTS_MAX),
  };
};

const probeOf = ({ probe }: Wiring): BoardSetup['probe'] =>
  probe !== undefined && 'drivenBy' in probe
    ? { channel: channelOf(probe.pin), drivenBy: probe.drivenBy }
    : null;

/** Whether the board may rely on its watchdog; see `board flash` for bootloaders that make it a danger. */
export type Watchdog = BoardSetup['watchdog'];

/** The setup that a farm file gives, with the watchdog on unless said otherwise. */
export const setupOf = (farm: Farm, wiring: Wiring, watchdog: Watchdog = 'on'): BoardSetup => ({
  deadBoard: farm.deadBoard,
  relay: { pin: wiring.relay.pin, level: wiring.relay.energised },
  longestOnSeconds: Math.floor(farm.pump.longestOnMinutes * 60),
  shortestOffSeconds: Math.ceil(farm.pump.shortestOffSeconds),
  returnFlow: returnFlowOf(farm, wiring),
  pumpCurrent: pumpCurrentOf(wiring),
  tankFloat: optionalContact(wiring.tankFloat),
  relayReadBack: optionalContact(wiring.relayReadBack),
  mainsPresent: optionalContact(wiring.mainsPresent),
  leakSensor: optionalContact(wiring.leakSensor),
  overflowFloat: optionalContact(wiring.overflowFloat),
  buzzer: wiring.buzzer ?? null,
  lamp: wiring.lamp ?? null,
  button: wiring.button ?? null,
  airThermistor:
    wiring.airThermistor === undefined
      ? null
      : thermistorOf(wiring.airThermistor, farm.temperatureRule.referenceCelsius),
  probe: probeOf(wiring),
  sipSeconds: SIP_SECONDS,
  watchdog,
});

/** The setup block of 72 bytes: docs/board-protocol.md, "Setup". */
export const setupBlock = (farm: Farm, wiring: Wiring, watchdog: Watchdog = 'on'): Uint8Array =>
  setupBytes(setupOf(farm, wiring, watchdog));

/** What the block cannot say exactly, in words for whoever flashes a board. */
export const setupNotes = (farm: Farm, { returnFlow }: Wiring): readonly string[] => {
  if (returnFlow === undefined || !('pulsesPerLitre' in returnFlow)) return [];
  const usual = farm.benches.reduce((sum, bench) => sum + bench.litresPerMinute, 0);
  const pulses = (usual * returnFlow.pulsesPerLitre * PULSE_SECONDS) / 60;
  if (WATER_SHARE * pulses <= PULSES_MAX) return [];
  const percent = Math.round((100 * PULSES_MAX) / pulses);
  return [
    `The meter is so fine that the board alone takes ${percent} % of the usual return for water; this computer wants ${100 * WATER_SHARE} %. A coarser meter cures it (board.returnFlow.pulsesPerLitre).`,
  ];
};
