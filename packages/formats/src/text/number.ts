/** Exact powers of ten: every one up to 10^22 is a double. */
export const POWERS_OF_TEN: Float64Array = Float64Array.from({ length: 23 }, (_, k) => Number(`1e${k}`));

const SPLITTER = 134217729; // 2^27 + 1, Dekker (1971)
const MARGIN = 2 ** -50;

/**
 * Reads the decimal number that starts at `at`: `[+-] digits [decimal digits] [e [+-] digits]`.
 *
 * The value equals Number(text) bit for bit. Up to 15 significant digits and powers up to 10^22 need one correctly rounded
 * operation (W. D. Clinger, "How to read floating point numbers accurately", PLDI 1990). 16 to 18 digits are divided in
 * doubled precision and taken only where the error bound cannot change the rounding; everything else goes to Number().
 *
 * @param bytes must hold a byte that cannot continue a number behind the number (a line break does)
 * @param decimal byte of the decimal sign
 * @param end receives the position behind the number in `end[0]`; `at` when there is none
 * @returns the value; NaN with `end[0] === at` when no number starts here
 */
export function numberAt(bytes: Uint8Array, at: number, decimal: number, end: Int32Array): number {
  let p = at;
  const sign = bytes[p];
  if (sign === 45 || sign === 43) p++;
  let high = 0;
  let low = 0;
  let digits = 0;
  const first = p;
  let d = bytes[p]! ^ 48;
  while (d < 10) {
    if (digits > 0 || d > 0) {
      if (digits < 9) high = high * 10 + d;
      else if (digits < 18) low = low * 10 + d;
      digits++;
    }
    d = bytes[++p]! ^ 48;
  }
  let seen = p - first;
  let power = 0;
  if (bytes[p] === decimal) {
    const from = ++p;
    d = bytes[p]! ^ 48;
    while (d < 10) {
      if (digits > 0 || d > 0) {
        if (digits < 9) high = high * 10 + d;
        else if (digits < 18) low = low * 10 + d;
        digits++;
      }
      d = bytes[++p]! ^ 48;
    }
    power = from - p;
    seen += p - from;
  }
  if (seen === 0) {
    end[0] = at;
    return Number.NaN;
  }
  if ((bytes[p]! | 32) === 101) {
    let q = p + 1;
    const exponentSign = bytes[q];
    if (exponentSign === 45 || exponentSign === 43) q++;
    const from = q;
    let exponent = 0;
    d = bytes[q]! ^ 48;
    while (d < 10) {
      if (exponent < 100000) exponent = exponent * 10 + d;
      d = bytes[++q]! ^ 48;
    }
    if (q > from) {
      power += exponentSign === 45 ? -exponent : exponent;
      p = q;
    }
  }
  end[0] = p;
  const value = digits > 18 ? Number.NaN : assemble(high, low, digits, power);
  if (!Number.isNaN(value)) return sign === 45 ? -value : value;
  return numberOfText(bytes, at, p);
}

/** high and low digits times 10^power where that can be done exactly, else NaN. */
function assemble(high: number, low: number, digits: number, power: number): number {
  if (digits === 0) return 0;
  const scaled = digits > 9 ? high * POWERS_OF_TEN[digits - 9]! : high;
  const sum = scaled + low;
  if (power === 0) return sum;
  if (power < -22 || power > 22) return Number.NaN;
  if (digits <= 15) return power < 0 ? sum / POWERS_OF_TEN[-power]! : sum * POWERS_OF_TEN[power]!;
  if (power > 0) return Number.NaN;
  return divideDoubled(sum, low - (sum - scaled), POWERS_OF_TEN[-power]!);
}

/** (high + low) / by, correctly rounded, or NaN where the bound cannot tell. */
function divideDoubled(high: number, low: number, by: number): number {
  const quotient = high / by;
  const product = quotient * by;
  const a = split(quotient);
  const b = split(by);
  const ra = quotient - a;
  const rb = by - b;
  const error = a * b - product + a * rb + ra * b + ra * rb;
  const correction = (high - product - error + low) / by;
  const value = quotient + correction * (1 - MARGIN);
  return value === quotient + correction * (1 + MARGIN) ? value : Number.NaN;
}

function split(x: number): number {
  const t = SPLITTER * x;
  return t - (t - x);
}

function numberOfText(bytes: Uint8Array, from: number, to: number): number {
  let text = '';
  for (let i = from; i < to; i++) text += bytes[i] === 44 ? '.' : String.fromCharCode(bytes[i]!);
  return Number(text);
}

const end = new Int32Array(1);

/**
 * The number a whole cell holds, blanks around it allowed.
 *
 * @param text cell without quotes
 * @returns undefined when it is not one finite decimal number
 */
export function numberOf(text: string, decimal: '.' | ','): number | undefined {
  const plain = text.trim();
  if (!(decimal === ',' ? COMMA : POINT).test(plain)) return undefined;
  const bytes = new Uint8Array(plain.length + 1);
  for (let i = 0; i < plain.length; i++) bytes[i] = plain.charCodeAt(i);
  const value = numberAt(bytes, 0, decimal.charCodeAt(0), end);
  return end[0] === plain.length && Number.isFinite(value) ? value : undefined;
}

const POINT = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;
const COMMA = /^[+-]?(\d+,?\d*|,\d+)([eE][+-]?\d+)?$/;
