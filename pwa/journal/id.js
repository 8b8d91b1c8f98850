// @ts-check
/** Makes an id: 128 random bits in 22 characters of base64url. */
export function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return btoa(String.fromCharCode(...bytes)).slice(0, 22).replaceAll("+", "-").replaceAll("/", "_");
}
