/** From plies and resin to thickness and mass, and from there to the offset of the tool. */
package layupmold.geometry.laminate;
