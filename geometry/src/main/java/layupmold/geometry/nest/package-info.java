/** Laying flat pieces of cloth on a roll. */
package layupmold.geometry.nest;
