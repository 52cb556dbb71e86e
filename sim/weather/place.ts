/** Where the weather happens; the farm's own place fits. */
export interface WeatherPlace {
  /** North positive. */
  readonly latitudeDegrees: number;
  /** East positive. */
  readonly longitudeDegrees: number;
  readonly elevationMetres: number;
  /** IANA name; decides where a local day begins and ends. */
  readonly timeZone: string;
  /** The usual wind, taken wherever nothing better is known. */
  readonly windMetresPerSecond: number;
}
