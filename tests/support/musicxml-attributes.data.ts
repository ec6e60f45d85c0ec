/** Groups of attributes by name, each a list of `name:type` (with `!` where it is required) and names of other groups. **Source** MusicXML 4.0, W3C Community Group Final Report (2021), musicxml.xsd: the attribute group of the same name; from memory. */
export const attributeGroups: Readonly<Record<string, string>> = {
  'unique-id': 'id:id',
  position: 'default-x:tenths default-y:tenths relative-x:tenths relative-y:tenths',
  font: 'font-family:any font-style:font-style font-size:font-size font-weight:font-weight',
  colour: 'color:color',
  placed: 'placement:above-below',
  oriented: 'orientation:over-under',
  shown: 'print-object:yes-no',
  'print-style': 'position font colour',
  'print-style-align': 'print-style halign:left-center-right valign:valign',
  printout: 'print-object:yes-no print-dot:yes-no print-spacing:yes-no print-lyric:yes-no',
  'text-decoration':
    'underline:number-of-lines overline:number-of-lines line-through:number-of-lines rotation:rotation-degrees',
  'symbol-formatting':
    'justify:left-center-right print-style-align text-decoration letter-spacing:number-or-normal line-height:number-or-normal dir:text-direction enclosure:enclosure',
  'text-formatting': 'symbol-formatting xml:lang:language xml:space:space',
  'dashed-formatting': 'dash-length:tenths space-length:tenths',
  bezier:
    'bezier-x:tenths bezier-y:tenths bezier-x2:tenths bezier-y2:tenths bezier-offset:decimal bezier-offset2:decimal',
  'trill-sound':
    'start-note:start-note trill-step:trill-step two-note-turn:two-note-turn accelerate:yes-no beats:trill-beats second-beat:percent last-beat:percent',
  'bend-sound': 'accelerate:yes-no beats:trill-beats first-beat:percent last-beat:percent',
  'level-display': 'parentheses:yes-no bracket:yes-no size:symbol-size',
  'empty-placement': 'print-style placed',
  'empty-line':
    'line-shape:line-shape line-type:line-type line-length:line-length dashed-formatting print-style placed',
  'link-attributes': 'xlink:href!:any xlink:type:any xlink:role:any xlink:title:any xlink:show:any xlink:actuate:any',
  'image-attributes':
    'source!:any type!:any height:tenths width:tenths position halign:left-center-right valign:valign-image',
};
