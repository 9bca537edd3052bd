// What the drag of an airframe is built up from: wetted surfaces, and the small things that spoil them. Each of the small
// things is a term of its own, so that cleaning it up changes that term and nothing else.

/** A wing- or tail-like surface, both sides and both panels together. */
export interface FrictionSurface {
  /** m² */
  readonly wettedArea: number
  /** Mean chord, m; the length of its boundary layer. */
  readonly chord: number
  readonly thicknessRatio: number
  /** Chordwise position of the greatest thickness, as a share of the chord. */
  readonly thicknessPosition: number
  /** Interference factor, 1 to 1.3. */
  readonly interference: number
  /** Share of the chord over which the flow stays laminar. */
  readonly laminarShare: number
}

/** A fuselage-like body. */
export interface FrictionBody {
  readonly wettedArea: number
  /** m */
  readonly length: number
  /** Length over greatest diameter. */
  readonly fineness: number
  readonly interference: number
  readonly laminarShare: number
}

export interface DragGeometry {
  readonly wing: FrictionSurface
  readonly tail: FrictionSurface
  readonly body: FrictionBody
  /** Factor on turbulent friction for seams, paint and texture; 1: smooth. */
  readonly roughness: number
  /** Blunt trailing edges of wing and tail: total length along the span and mean thickness, m. */
  readonly trailingEdges: { readonly length: number; readonly thickness: number }
  /** Control-surface gaps: area of the surfaces they cut, m², and sweep of the hinge line, rad. */
  readonly gaps: { readonly affectedArea: number; readonly sweep: number }
  /** Frontal area of horns and linkages in the stream, m². */
  readonly horns: number
  /** Undercarriage: frontal areas of wheels (diameter × width) and round struts, m², and the share that stays in the stream. */
  readonly gear: { readonly wheels: number; readonly struts: number; readonly exposed: number }
  /** Frontal area of door edges and well rims that stand in the stream, m². */
  readonly doorEdges: number
  /** Flat faces that look aft, m². */
  readonly flatFaces: number
  /** Drag area of cooling air, and of what the intake spills, m². */
  readonly cooling: number
  readonly spillage: number
}
