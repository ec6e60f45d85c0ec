export function undocumented(): number {
  return 1;
}
