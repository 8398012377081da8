import { expect, test } from 'vitest';
import { arrows } from './arrows.ts';
import { checkImports } from './import-check.ts';
import { circlesIn, fileGraph, folderGraph } from './import-circles.ts';
import { importsOf } from './source-imports.ts';

function whyOf(file: string, source: string): readonly string[] {
  const others = ['src/quantity/a.ts', 'src/routes/a.ts', 'src/report/a.ts', 'src/server/a.ts', 'src/web/a.ts'];
  const tree = new Map(others.map((path) => [path, '']));
  tree.set(file, source);
  return checkImports(tree).map(({ why }) => why);
}

test('importsOf finds static, multi-line, type, re-exported and dynamic imports, and none in comments', () => {
  const source = [
    "import a from 'a';",
    'import {\n  b,\n  c,\n} from "b";',
    "import type { C } from '#c/d';",
    "import 'e';",
    "export { f } from './f.ts';",
    "export type { G } from './g.ts';",
    "// import h from 'h';",
    "const i = await import('./i.ts');",
    "export const from = 'j';",
  ].join('\n');
  expect(importsOf(source).map(({ specifier, typeOnly }) => [specifier, typeOnly])).toEqual([
    ['a', false],
    ['b', false],
    ['#c/d', true],
    ['e', false],
    ['./f.ts', false],
    ['./g.ts', true],
    ['./i.ts', false],
  ]);
});

test('checkImports lets arrows pass and names a forbidden one', () => {
  expect(whyOf('src/report/b.ts', "import { a } from '#routes/a';")).toEqual([]);
  expect(whyOf('src/routes/b.ts', "import { a } from '#report/a';")).toEqual(['routes may not import report']);
  expect(whyOf('src/cli/b.ts', "import { a } from '#web/a';")).toEqual(['cli may not import web']);
});

test('checkImports lets the web application have the types of the server and nothing else of it', () => {
  expect(whyOf('src/web/b.ts', "import type { A } from '#server/a';")).toEqual([]);
  expect(whyOf('src/web/b.ts', "import { a } from '#server/a';")).toEqual(['web may not import server']);
});

test('checkImports wants subpaths across folders and relative imports beside a file', () => {
  expect(whyOf('src/routes/b.ts', "import { a } from '../quantity/a.ts';")).toHaveLength(1);
  expect(whyOf('src/routes/b.ts', "import { a } from '#routes/a';")).toHaveLength(1);
  expect(whyOf('src/routes/deep/b.ts', "import { a } from '#routes/a';")).toEqual([]);
  expect(whyOf('src/routes/deep/b.ts', "import { a } from '../a.ts';")).toEqual([]);
});

test('checkImports keeps packages and Node out of pure folders', () => {
  expect(whyOf('src/routes/b.ts', "import { readFileSync } from 'node:fs';")).toHaveLength(1);
  expect(whyOf('src/quantity/b.ts', "import { z } from 'zod';")).toHaveLength(1);
  expect(whyOf('src/record/b.ts', "import { z } from 'zod';")).toEqual([]);
  expect(whyOf('src/cli/b.ts', "import { readFileSync } from 'node:fs';")).toEqual([]);
});

test('checkImports names a target that does not exist and a folder outside the table', () => {
  expect(whyOf('src/report/b.ts', "import { a } from '#routes/gone';")).toEqual(['there is no src/routes/gone.ts']);
  expect(whyOf('src/attic/b.ts', "import { a } from '#routes/a';")).toHaveLength(1);
});

test('the arrows themselves have no circle', () => {
  expect(circlesIn(new Map(Object.entries(arrows).map(([from, to]) => [from, new Set(to)])))).toEqual([]);
});

test('circlesIn finds a circle of files and one of folders that no single file closes', () => {
  const files = fileGraph(
    new Map([
      ['src/routes/a/x.ts', "import { y } from '../b/y.ts';"],
      ['src/routes/b/y.ts', ''],
      ['src/routes/b/z.ts', "import { w } from '../a/w.ts';"],
      ['src/routes/a/w.ts', "import { v } from './v.ts';"],
      ['src/routes/a/v.ts', "import { w } from './w.ts';"],
      ['src/routes/c.ts', "import { x } from './a/x.ts';"],
      ['src/routes/a/u.ts', "import type { c } from '../c.ts';"],
    ]),
    { types: true },
  );
  expect(circlesIn(files)).toEqual([['src/routes/a/v.ts', 'src/routes/a/w.ts', 'src/routes/a/v.ts']]);
  expect(circlesIn(folderGraph(files))).toEqual([['src/routes/a', 'src/routes/b', 'src/routes/a']]);
});
