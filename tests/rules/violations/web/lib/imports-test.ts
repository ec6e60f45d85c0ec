export { tested } from './thing.test.ts';
