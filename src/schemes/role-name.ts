/** How is a part's role called in a sentence? By its own words, without the joins of its key: `back cover`. */
export const roleName = (role: string): string => role.replaceAll('-', ' ');
