/** One line of a weather record, in the units of the core. What the record does not say is left out. */
export interface HourlyRow {
  readonly epochMillis: number;
  readonly airCelsius: number;
  readonly humidityPercent?: number;
  readonly sunWattsPerSquareMetre?: number;
  readonly windMetresPerSecond?: number;
}
