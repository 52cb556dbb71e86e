/**
 * Numbers that carry their unit in the type. A brand is made only where a value enters (a parser, a port);
 * the kernels of `physics` and `sim/plant` work on plain numbers whose unit stands in the name.
 */
declare const unit: unique symbol;

export type Quantity<Unit extends string> = number & { readonly [unit]: Unit };

export type Seconds = Quantity<'s'>;
export type Litres = Quantity<'L'>;
export type Celsius = Quantity<'°C'>;

const branded = <Unit extends string>(value: number, symbol: string): Quantity<Unit> => {
  if (!Number.isFinite(value)) throw new RangeError(`expected a finite number of ${symbol}, found ${value}`);
  return value as Quantity<Unit>;
};

/** @throws RangeError when the value is not finite */
export const seconds = (value: number): Seconds => branded<'s'>(value, 'seconds');
/** @throws RangeError when the value is not finite */
export const litres = (value: number): Litres => branded<'L'>(value, 'litres');
/** @throws RangeError when the value is not finite */
export const celsius = (value: number): Celsius => branded<'°C'>(value, 'degrees Celsius');

/** `NoInfer`, or litres plus seconds would be a sum of the unit “litres or seconds”. */
export const plus = <Unit extends string>(a: Quantity<Unit>, b: Quantity<NoInfer<Unit>>): Quantity<Unit> =>
  (a + b) as Quantity<Unit>;
export const minus = <Unit extends string>(a: Quantity<Unit>, b: Quantity<NoInfer<Unit>>): Quantity<Unit> =>
  (a - b) as Quantity<Unit>;
export const scaled = <Unit extends string>(a: Quantity<Unit>, factor: number): Quantity<Unit> =>
  (a * factor) as Quantity<Unit>;
