// The questions that are measured, by name: the demonstration catalogue, and generated catalogues as large as what a market
// offers. Every thread asks them again by itself, since a prepared question is quicker to make than to send.
import { generateCatalogue } from '@ductwright/catalogue/generate/generate-catalogue'
import { demoCatalogueFolder, readCatalogueFolder } from '@ductwright/catalogue/read-catalogue'
import { parseRequest } from '@ductwright/contract/parse-request'
import { prepare } from '@ductwright/pipeline/prepare'

const SEED = 1
const AIRFRAMES = 12
/** Fans of this tip diameter must fit the airframe, m. */
const FAN_DIAMETER = 0.09
const LEAST_DUTY = 0.5
const NOZZLE_RATIOS = [0.8, 0.84, 0.88, 0.92]
/** Reached by some setups of each generated catalogue, so that there is an answer. */
const MARKET_TARGET = 260
const DEMO_TARGET = 340

/** Fans, motors, controllers and packs of the generated catalogues. */
export const SIZES = {
  tiny: [10, 20, 10, 20],
  small: [20, 40, 20, 40],
  medium: [30, 60, 30, 60],
  large: [50, 120, 60, 150],
}

export const QUESTIONS = {
  'demo, narrowed': demo(),
  'demo, 2 % duties': demo({ duty_step: 0.02 }),
  'demo, whole front': demo({ whole_front: true }),
  ...Object.fromEntries(Object.keys(SIZES).flatMap((size) => [4, 9, 26].map((duties) => market(size, duties)))),
  ...Object.fromEntries(Object.keys(SIZES).map((size) => market(size, 9, true))),
}

/** Name of the question to a generated catalogue. */
export function marketName(size, duties, whole = false) {
  return `${SIZES[size].join('×')}, ${duties} duties${whole ? ', whole front' : ''}`
}

const catalogues = new Map()

/** The named question, prepared anew; its catalogue is kept. */
export async function preparedQuestion(name) {
  const { source, requestFor } = QUESTIONS[name]
  if (!catalogues.has(source)) catalogues.set(source, await catalogueOf(source))
  const catalogue = catalogues.get(source)
  return prepare(parseRequest(requestFor(catalogue)), catalogue)
}

function demo(sweep = {}) {
  const request = {
    target: { speed_km_h: DEMO_TARGET },
    airframe: { id: 'airframe-vintra-90' },
    budget: '1200 EUR',
    sweep,
  }
  return { source: 'demo', requestFor: () => request }
}

function market(size, duties, whole = false) {
  const step = (1 - LEAST_DUTY) / (duties - 1)
  const sweep = {
    duties: Array.from({ length: duties }, (_, i) => Number((LEAST_DUTY + i * step).toFixed(4))),
    nozzle_ratios: NOZZLE_RATIOS,
    whole_front: whole,
  }
  const requestFor = ({ airframes }) => ({
    target: { speed_km_h: MARKET_TARGET },
    airframe: { id: airframes.find(takesTheFan).part.id },
    sweep,
  })
  return [marketName(size, duties, whole), { source: size, requestFor }]
}

function takesTheFan({ material, part }) {
  return material === 'composite' && part.fanDiameterMin <= FAN_DIAMETER && part.fanDiameterMax >= FAN_DIAMETER
}

function catalogueOf(source) {
  if (source === 'demo') return readCatalogueFolder(demoCatalogueFolder)
  const [fans, motors, escs, packs] = SIZES[source]
  return generateCatalogue({ seed: SEED, fans, motors, escs, packs, airframes: AIRFRAMES })
}
