/** Laying dry cloth on the tool: the net, its shear, corners it spans, and what to cut where it cannot lie. */
package layupmold.geometry.drape;
