/** A value with so many of its digits as a message shows. */
export const significant = (value: number, digits: number): number => Number(value.toPrecision(digits));
