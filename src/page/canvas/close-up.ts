import type { Chain, Scene } from '../worker/messages.ts'

/** A scene comes without its finest chords; they follow. */
const closeUps = new WeakMap<Scene, readonly Chain[]>()

export const keepCloseUp = (scene: Scene, chains: readonly Chain[]): void => {
  closeUps.set(scene, chains)
}

/** The lines of a scene as finely as they are known by now. */
export const chainsOf = (scene: Scene): readonly Chain[] => closeUps.get(scene) ?? scene.lines
