/**
 * The optimizing compiler of Node 20 works longer on a record than the record takes: half of the processor time of one
 * `identify` was its own. It is told to wait until code has run fifteen times as long as by default, which a large
 * class or a hostile record still reaches at once. Later versions of Node have a quick compiler in between and no such setting.
 */
import { setFlagsFromString } from 'node:v8';

if (process.versions.v8.startsWith('11.')) setFlagsFromString('--interrupt-budget=1000000');
