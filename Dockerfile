# One image for API, worker and command line: built with the development dependencies, run without them and without root.
FROM node:20-slim AS build
WORKDIR /app
COPY package.json package-lock.json .npmrc tsconfig.base.json ./
COPY libs libs
COPY services services
COPY cli cli
RUN npm ci --ignore-scripts
RUN npx tsc -b cli services/api services/worker
RUN npm prune --omit=dev --ignore-scripts

FROM node:20-slim
ENV NODE_ENV=production
WORKDIR /app
COPY --from=build /app/package.json ./
COPY --from=build /app/node_modules node_modules
COPY --from=build /app/libs libs
COPY --from=build /app/services services
COPY --from=build /app/cli cli
RUN mkdir /data && chown node:node /data
USER node
VOLUME /data
EXPOSE 8080
CMD ["node", "services/api/dist/main.js"]
