/** Why a path may not be used inside a package, or null when it may. Only plain relative POSIX paths are safe. */
export function unsafePath(path: string): string | null {
  if (path === '') return 'it is empty';
  if (path.startsWith('/') || /^[A-Za-z]:/.test(path)) return 'it is absolute';
  if (path.includes('\\')) return 'it holds a backslash';
  if (/[\p{Cc}]/u.test(path)) return 'it holds a control character';
  if (path.split('/').some((part) => part === '..' || part === '.' || part === ''))
    return 'a part of it is "..", "." or empty';
  return path.length > 400 ? 'it is longer than 400 characters' : null;
}
