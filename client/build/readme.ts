/**
 * The README as it goes into a package. An editor's page of an extension loads
 * pictures over https only, and neither it nor a registry follows a link into the
 * package: a picture of ours would be a broken one, a link a dead one. Both stay
 * in the repository; the words of a link stay everywhere.
 */
export function packagedReadme(text: string): string {
  return text
    .replace(/^!\[[^\]]*\]\((?!https:)[^)]*\)\n+/gmu, '')
    .replace(/\[([^\]]+)\]\((?!https:)[^)]*\)/gu, '$1');
}
