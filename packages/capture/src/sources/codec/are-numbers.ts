/** Whether every value is a finite number. A plain loop: it stands in the way of every frame. */
export function areNumbers(values: Float64Array): boolean {
  for (let i = 0; i < values.length; i++) if (!Number.isFinite(values[i])) return false;
  return true;
}
