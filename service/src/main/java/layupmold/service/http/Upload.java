package layupmold.service.http;

import layupmold.service.store.Blob;

/**
 * A posted part, already in the store.
 *
 * @param part its bytes
 * @param name its file name without any path, or null
 * @param recipeJson the recipe as posted, or null
 */
record Upload(Blob part, String name, String recipeJson) {
}
