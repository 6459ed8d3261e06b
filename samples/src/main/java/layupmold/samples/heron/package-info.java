/**
 * The costume of a walkabout heron, made by formulas: ten closed thin shells with rounded rims, openings and detail lines
 * that the tessellation follows. Same code, same bytes.
 */
package layupmold.samples.heron;
