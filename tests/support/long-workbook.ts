/** A workbook of one sheet with as many rows as somebody wants, made faster than a library writes it. */
import { strToU8, zipSync } from 'fflate';

/** Columns for fibre, one reading and the day, which is empty; the parts without which there is no workbook (ISO/IEC 29500-1). */
export function longWorkbook(rows: number): Uint8Array {
  const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
  const relations = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
  const content = 'http://schemas.openxmlformats.org/package/2006';
  const cells = ['Fibre', '850 nm A>B', 'Tested'].map(
    (word, at) => `<c r="${'ABC'[at]}1" t="inlineStr"><is><t>${word}</t></is></c>`,
  );
  const lines = Array.from(
    { length: rows },
    (_, at) =>
      `<row><c r="A${at + 2}"><v>${(at % 12) + 1}</v></c><c r="B${at + 2}"><v>0.${(at % 80) + 10}</v></c></row>`,
  );
  const parts = {
    '[Content_Types].xml': `<Types xmlns="${content}/content-types"><Default Extension="xml" ContentType="application/xml"/></Types>`,
    'xl/workbook.xml': `<workbook xmlns="${main}" xmlns:r="${relations}"><sheets><sheet name="Loss" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': `<Relationships xmlns="${content}/relationships"><Relationship Id="rId1" Type="${relations}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
    'xl/worksheets/sheet1.xml': `<worksheet xmlns="${main}"><sheetData><row>${cells.join('')}</row>${lines.join('')}</sheetData></worksheet>`,
  };
  const packed = Object.entries(parts).map(([name, part]) => [name, strToU8(part)]);
  return zipSync(Object.fromEntries(packed), { level: 1 });
}
