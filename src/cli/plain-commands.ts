/** The commands about one or two records, which share nearly all of their code: one chunk of the bundle, loaded in one go. */
export * as calibrate from './commands/calibrate.ts';
export * as compare from './commands/compare.ts';
export * as convert from './commands/convert.ts';
export * as demo from './commands/demo.ts';
export * as identify from './commands/identify.ts';
export * as predict from './commands/predict.ts';
export * as report from './commands/report.ts';
export * as schema from './commands/schema.ts';
export { closestNames } from './suggest.ts';
