// What the task runner tells by the environment.
export function required(name) {
  const value = process.env[name];
  if (!value) {
    throw new Error(`${name} is not set: start this through \`cargo task\`.`);
  }
  return value;
}
