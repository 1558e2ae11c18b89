export { remembered } from '../../numeric/remembered.ts';
