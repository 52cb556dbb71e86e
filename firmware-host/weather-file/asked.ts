/** How the columns of the file are headed. What is not named is not read. */
export interface WeatherColumns {
  readonly time: string;
  readonly temperature: string;
  /** Relative, in percent. */
  readonly humidity?: string | undefined;
  /** Global radiation on the horizontal, in W/m². */
  readonly sun?: string | undefined;
  /** In m/s. */
  readonly wind?: string | undefined;
}

/** Where the plants stand; the farm's own place fits. */
export interface FarmPlace {
  readonly latitudeDegrees: number;
  readonly longitudeDegrees: number;
  readonly elevationMetres: number;
  readonly timeZone: string;
}

/** How the text of a weather file is to be understood. */
export interface WeatherTextAsked {
  readonly columns: WeatherColumns;
  readonly temperatureUnit: 'celsius' | 'fahrenheit';
  /** Of times written without an offset; the farm's own when absent. */
  readonly timeZone?: string | undefined;
  readonly farmPlace: FarmPlace;
}

/** Which file to read, and how; `weather` of the farm file fits, with its path resolved and the farm's place. */
export interface WeatherFileAsked extends Omit<WeatherTextAsked, 'columns'> {
  readonly path: string;
  /** An EPW file needs none. */
  readonly columns?: WeatherColumns | undefined;
  /** Columns that the farm file names for its own record serve another CSV too, and do not stand against an EPW file. */
  readonly columnsAreFor?: 'this-file' | 'another-file';
}

/** One hour of the record in the units of the core; what the file does not say is left out. */
export interface WeatherRow {
  readonly epochMillis: number;
  readonly airCelsius: number;
  readonly humidityPercent?: number;
  readonly sunWattsPerSquareMetre?: number;
  readonly windMetresPerSecond?: number;
}
