/** Whether a file name fits a pattern with `*` and `?`, whatever the case; hidden and half-copied files never do. */
export function fitsPattern(name: string, pattern: string | undefined): boolean {
  if (name.startsWith('.') || /\.(tmp|part|partial|crdownload)$/iu.test(name) || name.endsWith('~')) return false;
  if (pattern === undefined) return true;
  return fits(name.toLowerCase(), pattern.toLowerCase());
}

/** Goes back to the last star only, so that no pattern takes long. */
function fits(name: string, pattern: string): boolean {
  let n = 0;
  let p = 0;
  let star = -1;
  let from = 0;
  while (n < name.length) {
    if (pattern[p] === '*') {
      star = p++;
      from = n;
    } else if (pattern[p] === '?' || pattern[p] === name[n]) {
      p++;
      n++;
    } else if (star >= 0) {
      p = star + 1;
      n = ++from;
    } else return false;
  }
  while (pattern[p] === '*') p++;
  return p === pattern.length;
}
