import { fromPairs, fromSevenBitGroups, SYSEX } from './bytes.ts';

/** Everything a host can say to a board. */
export type HostMessage =
  | { readonly kind: 'set-pin-mode'; readonly pin: number; readonly mode: number }
  | { readonly kind: 'set-pin-value'; readonly pin: number; readonly level: 0 | 1 }
  | { readonly kind: 'digital-port-write'; readonly port: number; readonly bits: number }
  | { readonly kind: 'analog-write'; readonly pin: number; readonly value: number }
  | { readonly kind: 'extended-analog-write'; readonly pin: number; readonly value: number }
  | { readonly kind: 'report-analog'; readonly channel: number; readonly wanted: boolean }
  | { readonly kind: 'report-digital'; readonly port: number; readonly wanted: boolean }
  | { readonly kind: 'version-query' }
  | { readonly kind: 'firmware-query' }
  | { readonly kind: 'capability-query' }
  | { readonly kind: 'analog-mapping-query' }
  | { readonly kind: 'pin-state-query'; readonly pin: number }
  | { readonly kind: 'sampling-interval'; readonly millis: number }
  | { readonly kind: 'sampling-interval-query' }
  | { readonly kind: 'string'; readonly text: string }
  | { readonly kind: 'reset' }
  | { readonly kind: 'unknown-sysex'; readonly id: number; readonly payload: readonly number[] };

/** Extended analog values have up to 32 bits since protocol 2.7, so at most five groups of 7. */
const EXTENDED_GROUPS_MAX = 5;
const EXTENDED_VALUE_MAX = 0xffff_ffff;

const queryOf = (kind: BareQuery, payload: readonly number[]): HostMessage | null =>
  payload.length === 0 ? { kind } : null;
type BareQuery = 'firmware-query' | 'capability-query' | 'analog-mapping-query' | 'sampling-interval-query';

const extendedAnalogOf = (payload: readonly number[]): HostMessage | null => {
  const [pin, ...groups] = payload;
  if (pin === undefined || groups.length === 0 || groups.length > EXTENDED_GROUPS_MAX) return null;
  const value = fromSevenBitGroups(groups);
  return value > EXTENDED_VALUE_MAX ? null : { kind: 'extended-analog-write', pin, value };
};

/** The message in a complete sysex frame, or `null` when its length is not what the protocol lays down. */
export const sysexMessage = (id: number, payload: readonly number[]): HostMessage | null => {
  const [first] = payload;
  switch (id) {
    case SYSEX.firmware:
      return queryOf('firmware-query', payload);
    case SYSEX.capabilityQuery:
      return queryOf('capability-query', payload);
    case SYSEX.analogMappingQuery:
      return queryOf('analog-mapping-query', payload);
    case SYSEX.samplingIntervalQuery:
      return queryOf('sampling-interval-query', payload);
    case SYSEX.pinStateQuery:
      return first !== undefined && payload.length === 1 ? { kind: 'pin-state-query', pin: first } : null;
    case SYSEX.samplingInterval:
      return payload.length === 2 ? { kind: 'sampling-interval', millis: fromSevenBitGroups(payload) } : null;
    case SYSEX.extendedAnalog:
      return extendedAnalogOf(payload);
    case SYSEX.string: {
      const codes = fromPairs(payload);
      return codes && { kind: 'string', text: String.fromCharCode(...codes) };
    }
    default:
      return { kind: 'unknown-sysex', id, payload };
  }
};
