// One canonical spelling of JSON and its hash, for requests and answers; the same one the catalogue is versioned by.
export { canonicalJson, sha256Hex } from '@ductwright/catalogue/canonical-json'
