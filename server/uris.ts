/** URIs of documents and files: one spelling for each, so that what the client opens and what is stored are one file. */

/** Clients and Node escape different characters, and drives have two spellings. Others than hierarchical URIs stay. */
export function canonical(uri: string): string {
  const parts = /^([A-Za-z][\w+.-]*:)(\/\/[^/?#]*)?(\/[^?#]*)(.*)$/s.exec(uri);
  if (!parts) return uri;
  const [, scheme = "", authority = "", path = "", rest = ""] = parts;
  const spelt = path
    .split("/")
    .map((part) => encodeURIComponent(decoded(part)))
    .join("/");
  return scheme + authority + spelt.replace(/^\/[A-Z](?=%3A)/, (drive) => drive.toLowerCase()) + rest;
}

/** The URI of a file by its path from another one; undefined beside documents that have no place, as `untitled:`. */
export function resolveUri(name: string, base: string): string | undefined {
  try {
    return canonical(new URL(name.split("/").map(encodeURIComponent).join("/"), base).href);
  } catch {
    return undefined;
  }
}

/** The last part of a URI's path, decoded. */
export function fileName(uri: string): string {
  const last =
    uri
      .replace(/[?#].*$/s, "")
      .split("/")
      .pop() ?? uri;
  return decoded(last);
}

/** A file as people know it: by its path in the folder, with the folder's own name where there are several. */
export function shownName(uri: string, folders: readonly string[]): string {
  const folder = folders.find((one) => isBelow([one], uri));
  if (folder === undefined) return fileName(uri);
  const base = folder.replace(/\/$/, "");
  const from = folders.length > 1 ? base.lastIndexOf("/") + 1 : base.length + 1;
  return uri.slice(from).split("/").map(decoded).join("/");
}

/** Whether a file lies below one of the folders; `..` in a name is resolved already. */
export function isBelow(folders: readonly string[], uri: string): boolean {
  return folders.some((folder) => uri.startsWith(folder.endsWith("/") ? folder : `${folder}/`));
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
