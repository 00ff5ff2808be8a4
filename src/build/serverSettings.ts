/** The settings of common servers for a built app, from the one set of headers: `npm run -s server -- nginx`. */

import { HEADERS, IMMUTABLE } from './headers.ts'

export interface Site {
  /** Folder of the built app, as a full path. */
  readonly folder: string
  /** What comes before the block: `listen 443 ssl;` and the like of nginx, the address of Caddy. */
  readonly at: string
}

const header = (line: (name: string, value: string) => string, indent: string) =>
  Object.entries(HEADERS)
    .map(([name, value]) => `${indent}${line(name, value)}`)
    .join('\n')

/** A file for `conf.d`. `always`: also with a 404. */
const nginx = ({ folder, at }: Site) => `map $uri $otherseat_cache {
    ~^/assets/ "${IMMUTABLE}";
    default "no-cache";
}
server {
    ${at}
    root ${folder};
    default_type application/octet-stream;
    gzip on;
    gzip_types application/javascript application/json application/manifest+json application/wasm image/svg+xml text/css text/plain;
    location / {
        # A missing file is a 404, never the start page.
        try_files $uri $uri/index.html =404;
    }
    add_header Cache-Control $otherseat_cache;
${header((name, value) => `add_header ${name} "${value}" always;`, '    ')}
}
`

const caddy = ({ folder, at }: Site) => `${at} {
	root * ${folder}
	encode gzip
	header {
${header((name, value) => `${name} "${value}"`, '\t\t')}
	}
	@named path /assets/*
	header @named Cache-Control "${IMMUTABLE}"
	@others not path /assets/*
	header @others Cache-Control no-cache
	@unnamed path_regexp /[^./]+$
	header @unnamed Content-Type application/octet-stream
	file_server {
		precompressed br
	}
}
`

export const SERVERS = { nginx, caddy } as const satisfies Readonly<Record<string, (site: Site) => string>>
