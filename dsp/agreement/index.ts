export { type OneWayAnova, oneWayAnova, type TwoWayAnova, twoWayAnova } from './analysis-of-variance.ts';
export {
  INTRACLASS_FORMS,
  type IntraclassCorrelation,
  type IntraclassForm,
  intraclassCorrelation,
  MCGRAW_WONG,
} from './intraclass-correlation.ts';
export { type Agreement, agreement, type Interval, proportionalBias } from './limits-of-agreement.ts';
export {
  concordance,
  correlation,
  type Reliability,
  reliability,
  repeatabilityCoefficient,
  smallestWorthwhileChange,
  standardErrorOfMeasurement,
  withinSubjectSd,
} from './reliability.ts';
export { type RepeatedAgreement, repeatedAgreement, sdOfSingleDifferences } from './repeated-agreement.ts';
