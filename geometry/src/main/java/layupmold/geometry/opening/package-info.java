/**
 * Closes every opening of the face but its perimeter with a cap that continues the surroundings, and keeps each loop as
 * a trim line. Entry point: {@link layupmold.geometry.opening.OpeningCapper}; result:
 * {@link layupmold.geometry.opening.CappedFace}.
 */
package layupmold.geometry.opening;
