import type { Judgements } from './judgements.ts';

/** Equal plants that stand on a bench from a moment on, until the next planting. */
export interface Planting {
  /** The first of a bench stands from the beginning of time. */
  readonly fromMillis: number;
  /** 0: the bench is empty. */
  readonly plants: number;
  readonly plantsPerSquareMetre: number;
  readonly leafSquareMetresMax: number;
  readonly rootGramsMax: number;
  readonly halfGrownDays: number;
  readonly growthPerDay: number;
  /** Sowing as milliseconds since 1970, local noon of the day. */
  readonly sownMillis: number;
  /** Seedlings that grew in place from the start have a bare wet cup, and few roots in the film. */
  readonly startedInPlace: boolean;
}

/** A bench as the simulated world knows it; plain facts, no farm file. */
export interface BenchBuild {
  readonly channelMetres: number;
  /** Flow into the bench with the pump on and every branch open. */
  readonly liftMetres: number;
  /** R of the branch H = z + R·Q², m per (L/min)². */
  readonly branchResistance: number;
  /** One at least, in order of their beginning. */
  readonly plantings: readonly Planting[];
}

export type TopUp =
  | { readonly kind: 'by-hand' }
  | { readonly kind: 'float-valve'; readonly closesAtLitres: number; readonly litresPerMinute: number };

export interface TankBuild {
  readonly brimLitres: number;
  readonly dryLitres: number;
  readonly topUp: TopUp;
  readonly topUpMillisiemensPerCm: number;
}

export interface PumpBuild {
  readonly headMetresMax: number;
  /** a of the pump curve H = H0 − a·Q². */
  readonly curveCoefficient: number;
}

/** Everything that stays as it is while the plant runs. */
export interface PlantBuild {
  readonly benches: readonly BenchBuild[];
  readonly tank: TankBuild;
  readonly pump: PumpBuild;
  /** Share of the sun that reaches the leaves. */
  readonly sunShare: number;
  /** Thin air holds less oxygen. */
  readonly elevationMetres: number;
  /** And so does salty water; taken as it usually is, since a strength drifts by far less than oxygen is doubted. */
  readonly usualMillisiemensPerCm: number;
  readonly judgements: Judgements;
}
