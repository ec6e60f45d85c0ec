/** The names that HTML has for the characters from 160 on. **Source** HTML 4.01, section 24.2.1. */
const latinNames =
  'nbsp iexcl cent pound curren yen brvbar sect uml copy ordf laquo not shy reg macr deg plusmn sup2 sup3 acute micro para middot cedil sup1 ordm raquo frac14 frac12 frac34 iquest Agrave Aacute Acirc Atilde Auml Aring AElig Ccedil Egrave Eacute Ecirc Euml Igrave Iacute Icirc Iuml ETH Ntilde Ograve Oacute Ocirc Otilde Ouml times Oslash Ugrave Uacute Ucirc Uuml Yacute THORN szlig agrave aacute acirc atilde auml aring aelig ccedil egrave eacute ecirc euml igrave iacute icirc iuml eth ntilde ograve oacute ocirc otilde ouml divide oslash ugrave uacute ucirc uuml yacute thorn yuml'.split(
    ' ',
  );

/** Names of other characters that titles have. **Source** HTML 4.01, sections 24.3.1 and 24.4.1. */
const otherNames: readonly (readonly [string, string])[] = [
  ['OElig', 'Œ'],
  ['oelig', 'œ'],
  ['Scaron', 'Š'],
  ['scaron', 'š'],
  ['ndash', '–'],
  ['mdash', '—'],
  ['lsquo', '‘'],
  ['rsquo', '’'],
  ['ldquo', '“'],
  ['rdquo', '”'],
  ['bdquo', '„'],
  ['hellip', '…'],
  ['bull', '•'],
  ['trade', '™'],
  ['euro', '€'],
];

/** Characters by the names that HTML has for them and XML has not. */
export const htmlEntities: ReadonlyMap<string, string> = new Map([
  ...latinNames.map((name, index) => [name, String.fromCharCode(160 + index)] as const),
  ...otherNames,
]);
