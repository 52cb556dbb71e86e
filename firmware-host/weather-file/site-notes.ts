import type { FarmPlace, WeatherRow } from './asked.ts';
import type { EpwSite } from './epw-header.ts';
import { noonLaterMinutes } from './noon.ts';

/** Beyond this the weather may be another. Common sense, no source. */
const FAR_KILOMETRES = 100;
/** About one degree by the lapse rate. */
const HIGH_METRES = 150;
/** International Standard Atmosphere (ISO 2533:1975): 6.5 °C cooler for each kilometre up. */
const CELSIUS_PER_METRE = 0.0065;
/** Morning mist or afternoon cloud moves the middle of the sun by half an hour; an hour is a wrong zone. No source. */
const NOON_MINUTES = 45;
const EARTH_KILOMETRES = 6371;
const HALF_HOUR_MILLIS = 1_800_000;
const RADIANS = Math.PI / 180;

type Place = Pick<FarmPlace, 'latitudeDegrees' | 'longitudeDegrees'>;

/** Great circle, by the haversine. */
const kilometresBetween = (a: Place, b: Place): number => {
  const half = (degrees: number): number => Math.sin((degrees * RADIANS) / 2) ** 2;
  const chord =
    half(b.latitudeDegrees - a.latitudeDegrees) +
    Math.cos(a.latitudeDegrees * RADIANS) *
      Math.cos(b.latitudeDegrees * RADIANS) *
      half(b.longitudeDegrees - a.longitudeDegrees);
  return 2 * EARTH_KILOMETRES * Math.asin(Math.min(1, Math.sqrt(chord)));
};

/**
 * What a grower should know of a file from another place. None of it is a refusal: a neighbour's weather is often
 * the best there is.
 * @param hours with the sun as the mean over the hour that ends at each row's time
 */
export const siteNotes = (
  site: EpwSite,
  hours: readonly WeatherRow[],
  farm: FarmPlace,
): readonly string[] => {
  const notes: string[] = [];
  const kilometres = kilometresBetween(site, farm);
  if (kilometres > FAR_KILOMETRES) {
    notes.push(`${site.name} lies ${Math.round(kilometres)} km from the farm: its weather may be another`);
  }
  const higher = site.elevationMetres - farm.elevationMetres;
  if (Math.abs(higher) > HIGH_METRES) {
    const celsius = (Math.abs(higher) * CELSIUS_PER_METRE).toFixed(1);
    notes.push(
      `${site.name} lies ${Math.round(Math.abs(higher))} m ${higher > 0 ? 'higher' : 'lower'} than the farm, ` +
        `where it is about ${celsius} °C ${higher > 0 ? 'warmer' : 'cooler'} (6.5 °C per km): rehearse with --hotter ${higher > 0 ? '' : '-'}${celsius} to allow for it`,
    );
  }
  const later = noonLaterMinutes(hours, farm, HALF_HOUR_MILLIS);
  if (later !== null && Math.abs(later) > NOON_MINUTES) {
    notes.push(
      `its sun is highest about ${Math.round(Math.abs(later))} min ${later > 0 ? 'later' : 'earlier'} than over the farm: look at longitude and time zone of the LOCATION line, and of the farm`,
    );
  }
  return notes;
};
