// Licence notices of the packages whose code a bundle holds, from esbuild's account of what went into it.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/** Folders of the packages of which at least one byte is in the bundles, from the project's folder. */
export function bundledPackages(metafiles) {
  const folders = new Set();
  for (const { outputs } of metafiles) {
    for (const { inputs } of Object.values(outputs)) {
      for (const [path, { bytesInOutput }] of Object.entries(inputs)) {
        const folder = /^.*node_modules\/(?:@[^/]+\/)?[^/]+(?=\/)/.exec(path)?.[0];
        if (folder !== undefined && bytesInOutput > 0) folders.add(folder);
      }
    }
  }
  return [...folders].sort();
}

/**
 * The notices of these packages as text: each licence text once, above it the packages that it is for, with version and
 * copyright lines. Throws where a package says nothing of its licence: it may not be bundled then.
 */
export function noticesText(folders, root) {
  const groups = new Map();
  for (const notice of folders.map((folder) => noticeOf(folder, root)).sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const key = notice.body.replace(/\W+/g, " ").toLowerCase();
    const group = groups.get(key) ?? { body: notice.body, packages: [] };
    group.packages.push(notice);
    groups.set(key, group);
  }
  const parts = [...groups.values()].map(({ body, packages }) => {
    const owners = grouped(packages, ({ copyright }) => copyright.map((line) => `\n  ${line}`).join(""));
    const lines = [...owners].map(
      ([owner, own]) => own.map(({ name, version, licence }) => `${name} ${version}, ${licence}`).join("\n") + owner,
    );
    return `${lines.join("\n")}\n\n${body}\n`;
  });
  return parts.join(`\n${"-".repeat(40)}\n\n`);
}

function noticeOf(folder, root) {
  const { name, version, license, author } = JSON.parse(readFileSync(join(root, folder, "package.json"), "utf8"));
  const files = readdirSync(join(root, folder))
    .filter((file) => /^(licen[cs]e|copying|notice)/i.test(file))
    .sort();
  const licence = typeof license === "string" ? license : license?.type;
  if (licence === undefined && files.length === 0) throw new Error(`${name} ${version} names no licence and may not be bundled`);
  const texts = files.map((file) =>
    readFileSync(join(root, folder, file), "utf8")
      .replaceAll("\r\n", "\n")
      .trim(),
  );
  const paragraphs = texts.join("\n\n").split(/\n\s*\n/);
  const isTitle = (text) => /^\W*(the )?(mit|isc|bsd)[- \w]*licen[cs]e\W*(\(\w+\)\W*)?$/i.test(text.trim());
  const isCopyright = (text) => text.split("\n").every((line) => /^\W*(copyright|\(c\)|©|all rights reserved)/i.test(line.trim()));
  const copyright = paragraphs.filter(isCopyright).flatMap((text) => text.split("\n").map((line) => line.trim()));
  const body = paragraphs.filter((text) => !isTitle(text) && !isCopyright(text)).join("\n\n");
  const owner = typeof author === "string" ? author : author?.name;
  return {
    name,
    version,
    licence: licence ?? "licence below",
    copyright: copyright.length > 0 || owner === undefined ? copyright : [`by ${owner}`],
    body: body || `The package brings no licence text; ${licence} is what it names in its package.json.`,
  };
}

function grouped(items, key) {
  const groups = new Map();
  for (const item of items) groups.set(key(item), [...(groups.get(key(item)) ?? []), item]);
  return groups;
}
