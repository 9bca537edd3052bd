// An answer as the files of a folder: the page, the mail in every form, the whole list as CSV, the answer as JSON and the
// charts. Names are fixed, so a second answer in the same folder takes the place of the first.
import { canonicalJson } from '@ductwright/contract/canonical-json'
import type { Receipt, Result } from '@ductwright/contract/result'
import { composeLetter } from './compose-letter.js'
import { renderCsv } from './csv.js'
import { letterHtml, mailOf, pictureLayout } from './mail.js'
import { composeDraft } from './mime.js'
import { renderReportPage } from './page/report-page.js'
import { type DrawnPicture, drawnPictures } from './pictures.js'

type Files = ReadonlyMap<string, string | Uint8Array>

/** File name, with a slash below a folder, to content. `date` is that of the mail. */
export async function answerFiles(result: Result, receipt: Receipt | null = null, date = new Date()): Promise<Files> {
  const pictures = await drawnPictures(result, pictureLayout)
  const mail = mailOf(result, receipt, pictures)
  return new Map<string, string | Uint8Array>([
    ['report.html', await renderReportPage(result, receipt)],
    ['mail.html', letterHtml(composeLetter(result, receipt, pictures), (id) => `charts/${id}.png`)],
    ['mail.txt', mail.text],
    ['mail.eml', await composeDraft(mail, result.answer_hash, date)],
    ['answer.csv', renderCsv(result)],
    ['answer.json', `${canonicalJson(result)}\n`],
    ...pictures.flatMap(chartFiles),
  ])
}

function chartFiles({ id, svg, png }: DrawnPicture): [string, string | Uint8Array][] {
  return [
    [`charts/${id}.svg`, svg],
    [`charts/${id}.png`, png],
  ]
}
