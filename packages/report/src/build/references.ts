/** References of a text, numbered in the order they are first named. */
export class References {
  private readonly known: string[] = [];

  /** The marks for a `source` of a registry, as ` [1, 2]`; nothing where it names no publication. */
  cite(...sources: readonly string[]): string {
    const found = sources.flatMap(publicationsOf).map((one) => {
      const at = this.known.indexOf(one);
      return at >= 0 ? at + 1 : this.known.push(one);
    });
    const numbers = [...new Set(found)].sort((a, b) => a - b);
    return numbers.length === 0 ? '' : ` [${numbers.join(', ')}]`;
  }

  get list(): readonly string[] {
    return this.known;
  }
}

/** Author and year, then where: "Haff et al. 2015, J Strength Cond Res 29(2):386-395". */
const publication = /\p{Lu}[\p{L}’' .,-]*?(?:et al\.|and \p{Lu}[\p{L}'’-]+)? ?\d{4}, [^;()]*\d+(?:\([^)]*\))?:[\d-]+/u;

/** Publications named in a source, without the remarks about them. Sources that are definitions of this program name none. */
export const publicationsOf = (source: string): string[] =>
  source.split(/; /u).flatMap((part) => {
    const found = publication.exec(part)?.[0];
    return found === undefined ? [] : [found.trim()];
  });

/** Whether a source was written from memory and has to be looked up before it is printed. */
export const isFromMemory = (source: string, publication: string): boolean =>
  source.split(/; /u).some((part) => part.includes(publication) && part.includes('from memory'));
