/** The compiled machine code, as base64: the build puts it in place of this, where its compiler is installed. */
export const bytes: string = '';
