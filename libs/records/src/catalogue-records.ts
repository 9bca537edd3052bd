// What is remembered of catalogues: immutable versions, which one is in force, and the private parts of single owners.
import type { Page } from './records.js'

/** Loaded when the service started, sent to the API, or made of a private layer over a shared version. */
export type CatalogueOrigin = 'start' | 'upload' | 'layer'

/** A version of the shared catalogue, without its content. */
export interface CatalogueVersionRow {
  readonly version: string
  readonly name: string
  readonly origin: CatalogueOrigin
  readonly createdAt: string
  /** Size of the content. */
  readonly bytes: number
  readonly current: boolean
}

export interface NewCatalogueVersion {
  readonly version: string
  readonly name: string
  readonly content: string
}

/** Own parts as their owner sent them; whoever knows the id may read and change them. */
export interface CatalogueLayerRow {
  readonly id: string
  readonly name: string
  readonly content: string
  /** Hash of the content. */
  readonly version: string
  readonly createdAt: string
  readonly changedAt: string
}

export interface CatalogueRecords {
  /** Keeps one immutable catalogue version (idempotent) and makes it the current one. */
  putCatalogue(version: string, name: string, content: string): Promise<void>
  /** The same for one that was sent. `expected`: only while this version is the current one; false when it is not. */
  uploadCatalogue(next: NewCatalogueVersion, expected: string | null): Promise<boolean>
  /** Keeps a version made of a private layer, for runs to be pinned to; the current one stays. */
  keepLayeredCatalogue(next: NewCatalogueVersion, layerId: string): Promise<void>
  /** Content of any version; null if unknown. */
  getCatalogue(version: string): Promise<string | null>
  currentCatalogue(): Promise<{ readonly version: string; readonly content: string } | null>
  /** A version of the shared catalogue; null for one that is unknown or private. */
  describeCatalogue(version: string): Promise<CatalogueVersionRow | null>
  /** Versions of the shared catalogue, the newest first. */
  listCatalogues(page: { readonly limit: number; readonly after: string | null }): Promise<Page<CatalogueVersionRow>>

  addLayer(layer: Pick<CatalogueLayerRow, 'name' | 'content' | 'version'>): Promise<CatalogueLayerRow>
  getLayer(id: string): Promise<CatalogueLayerRow | null>
  /** Replaces it while it still is the `expected` version; null when it is not, or is unknown. */
  changeLayer(
    id: string,
    layer: Pick<CatalogueLayerRow, 'name' | 'content' | 'version'>,
    expected: string,
  ): Promise<CatalogueLayerRow | null>
  /** Forgets the own parts and every version made of them that no run is pinned to; false when unknown. */
  deleteLayer(id: string): Promise<boolean>
}
