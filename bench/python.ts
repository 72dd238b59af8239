import { spawnSync } from 'node:child_process';

/** A Python that has numpy, scipy and pandas, with their versions; or what is missing. */
export type Python =
  | { readonly path: string; readonly versions: Readonly<Record<string, string>> }
  | { readonly missing: string };

const question =
  'import json, platform, numpy, scipy, pandas; print(json.dumps({"Python": platform.python_version(), "numpy": numpy.__version__, "scipy": scipy.__version__, "pandas": pandas.__version__}))';

/** Looks at the usual places; the first Python with all three libraries is taken. */
export function findPython(candidates: readonly string[] = ['/usr/bin/python3', 'python3', 'python']): Python {
  for (const path of candidates) {
    const asked = spawnSync(path, ['-c', question], { encoding: 'utf8' });
    if (asked.status === 0) return { path, versions: JSON.parse(asked.stdout) as Record<string, string> };
  }
  return { missing: `no Python with numpy, scipy and pandas among ${candidates.join(', ')}` };
}
