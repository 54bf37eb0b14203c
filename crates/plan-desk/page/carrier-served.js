// The planner is the program that serves this page.
export const isServed = true;

/** Carries a request to the program. */
export async function carry(operation, body) {
  const reply = await fetch(`api/${operation}`, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body,
  });
  return { status: reply.status, type: reply.headers.get("Content-Type") ?? "", blob: await reply.blob() };
}
