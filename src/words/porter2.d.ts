/** The one function of the stemmer; the package ships no types. */
declare module 'wink-porter2-stemmer' {
  export default function stem(word: string): string;
}
