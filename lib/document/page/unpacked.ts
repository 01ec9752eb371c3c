/** Text of the document that `packed` of ../policy made small: base64 of deflated (RFC 1951) UTF-8. */
export async function unpacked(text: string): Promise<string> {
  const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  return await new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw"))).text();
}
