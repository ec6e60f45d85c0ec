export function loose(value: any): void {
  Promise.resolve(value);
}
