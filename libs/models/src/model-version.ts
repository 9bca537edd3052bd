// Version of the models as a whole. Raised whenever a change moves any result; the changelog says by how much.

export const MODEL_VERSION = '2.0.0'
