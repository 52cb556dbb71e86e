import type { InjectorName } from '../faults/injectors.ts';
import type { Channel } from '../../src/ports/sample.ts';
import { lying } from './lies.ts';
import type { RunRecord, Stretch } from './record.ts';
import { disturbed } from './stretches.ts';

/** What a channel tells is judged by the three hours before too. */
const JUDGED_MINUTES = 180;

/**
 * Whether something that is fitted and whole could have told that no water came. A bench whose own inlet is blocked shows
 * on no common return: the farm is told so, and walks.
 */
export const canBeTold = (record: RunRecord, bench: number, span: Stretch): boolean => {
  const { evidence } = record.farm;
  const stands = (...names: readonly InjectorName[]): boolean => disturbed(record, names, span);
  const honest = (channel: Channel): boolean => !lying(record, [channel], span, JUDGED_MINUTES);
  // The script blocks the first planted bench, and in the campaign every bench is planted.
  if (bench === 0 && record.farm.benches.length > 1 && (stands('inlet-blocked') || stands('branch-clogging')))
    return false;
  // The host itself knows of a line that is gone and of a hold.
  if (stands('link-lost', 'hold')) return true;
  if (
    evidence.returnFlow !== 'none' &&
    honest(evidence.returnFlow === 'meter' ? 'return-flow' : 'return-switch')
  ) {
    return true;
  }
  if (
    stands('mains-lost') &&
    ((evidence.mainsPresent && honest('mains')) || (evidence.pumpCurrent && honest('pump-current')))
  ) {
    return true;
  }
  // A return that sticks speaks against one sign of power until a rest shows it, and flood upon flood leaves none.
  const outspoken = stands('flow-stuck-high') && stands('flood-now');
  const current = evidence.pumpCurrent && honest('pump-current');
  const contact = evidence.relayReadBack && honest('relay-read-back');
  if (stands('relay-open') && (outspoken ? current && contact : current || contact)) return true;
  if (stands('pump-unplugged') && current && !outspoken) return true;
  const float = evidence.tankFloat && honest('tank-float');
  const level = evidence.tankLevel && honest('tank-level');
  return stands('leak', 'top-up-stopped') && (float || level);
};
