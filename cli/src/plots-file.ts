// The charts of a setup as one HTML file. Loaded only when asked for, since drawing needs half a second to start.
import { writeFile } from 'node:fs/promises'
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import type { SetupReport } from '@ductwright/contract/setup'
import { curvesOfSetup } from '@ductwright/pipeline/setup-curves'
import { renderPlotsPage } from '@ductwright/report/plots-page'
import { UsageError } from './complaint.js'
import { reason } from './json-input.js'

/**
 * Writes the charts of a report; nothing when the setup cannot be worked through, which the report explains.
 * @returns whether there was anything to draw
 * @throws UsageError when the file cannot be written
 */
export async function writePlots(path: string, report: SetupReport, catalogue: Catalogue): Promise<boolean> {
  const curves = curvesOfSetup(report.understood, catalogue)
  if (curves === null) return false
  const page = await renderPlotsPage({ subject: report, curves })
  try {
    await writeFile(path, page)
  } catch (error) {
    throw new UsageError(`${path}: cannot be written: ${reason(error as NodeJS.ErrnoException)}`)
  }
  return true
}
