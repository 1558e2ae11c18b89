// The licences of the packages whose code the build took in: their authors ask that the texts go with every copy.
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';

const licenceFile = /^(licen[cs]e|copying|notice)/i;

/**
 * @param metafiles what esbuild tells of each build
 * @returns one text: each package with its version and its licence, in the order of their names
 */
export async function thirdPartyNotices(metafiles) {
  const files = new Map();
  for (const { outputs } of metafiles) {
    for (const input of Object.values(outputs).flatMap(({ inputs }) => Object.keys(inputs))) {
      const folder = /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(input)?.[0];
      if (folder !== undefined) files.set(folder, [...(files.get(folder) ?? []), input]);
    }
  }
  const notices = await Promise.all([...files].map(([folder, inputs]) => noticeOf(folder, inputs)));
  const inOrder = [...new Set(notices)].sort();
  return [
    `The files of this program hold code of ${inOrder.length} packages, under the licences below.\n`,
    ...inOrder,
  ].join(`\n${'-'.repeat(80)}\n\n`);
}

async function noticeOf(folder, inputs) {
  const { name, version, license } = JSON.parse(await readFile(join(folder, 'package.json'), 'utf8'));
  const names = (await readdir(folder)).filter((each) => licenceFile.test(each)).sort();
  const texts =
    names.length > 0
      ? await Promise.all(names.map((each) => plainText(join(folder, each))))
      : [await mitByItsSources(name, license, inputs)];
  return `${name} ${version}\n${license}\n\n${texts.map((text) => `${text.trim()}\n`).join('\n')}`;
}

/** A package without a file of its licence may have its copyright line in its sources; the MIT text is ours as well. */
async function mitByItsSources(name, license, inputs) {
  const sources = await Promise.all(inputs.map(plainText));
  const copyright = sources.map((text) => /^[\s/*]*(copyright \(c\) .*)$/im.exec(text)?.[1]).find(Boolean);
  if (license !== 'MIT' || copyright === undefined) {
    throw new Error(`${name} is bundled and brings no licence text; its notice cannot be made.`);
  }
  const ours = await plainText(join(import.meta.dirname, 'LICENSE'));
  return ours.replace(/^Copyright .*$/m, copyright.trim());
}

const plainText = async (path) => (await readFile(path, 'utf8')).replaceAll('\r\n', '\n');
