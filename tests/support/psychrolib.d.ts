/** The part of psychrolib 1.1.1 that tests use; the package carries no types. Pressures in Pa, humidity 0–1. */
declare module 'psychrolib' {
  interface Psychrometrics {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    GetSatVapPres(airCelsius: number): number;
    GetTDewPointFromRelHum(airCelsius: number, humidityShare: number): number;
    GetVapPresFromRelHum(airCelsius: number, humidityShare: number): number;
    GetTWetBulbFromRelHum(airCelsius: number, humidityShare: number, airPascals: number): number;
    GetHumRatioFromRelHum(airCelsius: number, humidityShare: number, airPascals: number): number;
    GetHumRatioFromTWetBulb(airCelsius: number, wetCelsius: number, airPascals: number): number;
    GetStandardAtmPressure(elevationMetres: number): number;
  }
  const psychrometrics: Psychrometrics;
  export default psychrometrics;
}
