import { readdirSync, statSync } from 'node:fs';
import { basename, join, relative, resolve, sep } from 'node:path';
import { UnfastenError } from '#quantity/unfasten-error';

/** One assessment of an archive. */
export interface ArchiveItem {
  /** Path within the archive with `/`: of its folder, or of its file where it lies in no folder of its own. */
  readonly item: string;
  /** The file to read. */
  readonly file: string;
  /** What `readFolder` reads: the folder, or the file. */
  readonly path: string;
  /** Set where its folder holds further assessments, so that nobody can say which is meant. */
  readonly isOneOfSeveral?: true;
}

const OWN_FOLDER = /^assessment\.(?:yaml|yml|json)$/;
const DOCUMENT = /\.(?:yaml|yml|json)$/;

/**
 * Which assessments does an archive hold? Recursively: a folder with `assessment.yaml`, `.yml` or `.json` is one assessment and
 * is not looked into further; anywhere else every YAML and JSON file is one. Sorted by path, so that the order never depends on
 * the disk. Hidden names and links are passed over, and so is `except`, the folder that results are written to. A path that is
 * itself an assessment is an archive of one. Throws kind `usage` where there is none, and Node's error for a path that cannot be read.
 */
export const findAssessments = (archive: string, except: string): readonly ArchiveItem[] => {
  if (statSync(archive).isFile()) return [{ item: basename(archive), file: archive, path: archive }];
  const found: ArchiveItem[] = [];
  const visit = (folder: string): void => {
    const entries = readdirSync(folder, { withFileTypes: true }).filter(({ name }) => !name.startsWith('.'));
    const own = entries.filter((entry) => entry.isFile() && OWN_FOLDER.test(entry.name)).map(({ name }) => name);
    const [name, other] = own.sort();
    if (name !== undefined) {
      const item = pathWithin(archive, folder) || basename(resolve(archive));
      found.push({ item, file: join(folder, name), path: folder, ...(other ? { isOneOfSeveral: true } : {}) });
      return;
    }
    for (const entry of entries) {
      const path = join(folder, entry.name);
      if (entry.isDirectory() && resolve(path) !== resolve(except)) visit(path);
      if (entry.isFile() && DOCUMENT.test(entry.name))
        found.push({ item: pathWithin(archive, path), file: path, path });
    }
  };
  visit(archive);
  if (found.length === 0)
    throw new UnfastenError('usage', 'There is no assessment in this folder', {
      where: archive,
      value: archive,
      remedy: 'Name a folder that holds assessment folders, or YAML or JSON files of assessments.',
    });
  return found.sort((a, b) => (a.item < b.item ? -1 : 1));
};

const pathWithin = (archive: string, path: string): string => relative(archive, path).split(sep).join('/');
