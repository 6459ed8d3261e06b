// Says what CGAL finds about an STL file: arguments are the file; prints "name figure" lines.
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/IO/STL.h>
#include <CGAL/Polygon_mesh_processing/connected_components.h>
#include <CGAL/Polygon_mesh_processing/measure.h>
#include <CGAL/Polygon_mesh_processing/orientation.h>
#include <CGAL/Polygon_mesh_processing/polygon_soup_to_polygon_mesh.h>
#include <CGAL/Polygon_mesh_processing/repair_polygon_soup.h>
#include <CGAL/Polygon_mesh_processing/self_intersections.h>
#include <CGAL/Surface_mesh.h>
#include <array>
#include <fstream>
#include <iomanip>
#include <iostream>
#include <vector>

typedef CGAL::Exact_predicates_inexact_constructions_kernel Kernel;
typedef CGAL::Surface_mesh<Kernel::Point_3> Mesh;
namespace PMP = CGAL::Polygon_mesh_processing;

int main(int count, char** arguments) {
    if (count != 2) {
        return 2;
    }
    std::vector<Kernel::Point_3> points;
    std::vector<std::array<std::size_t, 3>> triangles;
    if (!CGAL::IO::read_STL(arguments[1], points, triangles)) {
        std::cerr << "not an STL file" << std::endl;
        return 1;
    }
    PMP::merge_duplicate_points_in_polygon_soup(points, triangles);
    bool manifold = PMP::is_polygon_soup_a_polygon_mesh(triangles);
    std::cout << "triangles " << triangles.size() << "\nmanifold " << manifold << std::endl;
    if (!manifold) {
        return 0;
    }
    Mesh mesh;
    PMP::polygon_soup_to_polygon_mesh(points, triangles, mesh);
    bool closed = CGAL::is_closed(mesh);
    auto components = mesh.add_property_map<Mesh::Face_index, std::size_t>("f:component", 0).first;
    std::cout << std::setprecision(15) << "closed " << closed
              << "\nparts " << PMP::connected_components(mesh, components)
              << "\ncrosses " << PMP::does_self_intersect(mesh)
              << "\noutward " << (closed && PMP::is_outward_oriented(mesh))
              << "\nvolume " << (closed ? PMP::volume(mesh) : 0) << std::endl;
    return 0;
}
