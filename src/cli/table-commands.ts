/** The commands that read spreadsheets or the whole line table: what these need beyond the others is in this chunk. */
export * as importReadings from './commands/import.ts';
export * as lines from './commands/lines.ts';
export * as station from './commands/station.ts';
export * as verify from './commands/verify.ts';
