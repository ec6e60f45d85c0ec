export enum Shape {
  Round,
}
export * from './score/thing.ts';
export default Shape;
