// Bounds a wait on something that may hang, such as a queue whose server is gone.

export async function within<Value>(milliseconds: number, wait: Promise<Value>): Promise<Value> {
  let timer: NodeJS.Timeout | undefined
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`no reply within ${milliseconds} ms`)), milliseconds)
  })
  try {
    return await Promise.race([wait, late])
  } finally {
    clearTimeout(timer)
  }
}
