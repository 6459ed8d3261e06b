/** Constrained Delaunay triangulation in the plane, on primitive arrays, with exact predicates. */
package layupmold.geometry.delaunay;
