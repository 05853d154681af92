"""Writes the GeoTIFFs of tests/source/geotiff.test.ts with tifffile (Christoph Gohlke, BSD 3), a writer that has nothing in
common with the reader under test. Heights are those of `heights`, so that the tests can work them out again. Run by hand:
pip install tifffile imagecodecs numpy; python make.py"""
import numpy
import tifffile

ACROSS, DOWN = 37, 23


def heights(dtype):
    """Row 0 is north. Lopsided, no two rows or columns alike; whole numbers that every kind of sample holds."""
    row, column = numpy.mgrid[0:DOWN, 0:ACROSS]
    value = (row * row + 3 * column + (row * column) % 7) % 251
    return value.astype(dtype)


def keys(raster_type, model=1, extra=()):
    entries = [(1024, 0, 1, model), (1025, 0, 1, raster_type), *extra]
    return (1, 1, 0, len(entries), *[number for entry in entries for number in entry])


def write(name, data, raster_type=1, step=(2.5, 4.0), tie=(0, 0, 0, 431000.25, 5621400.5, 0), nodata=None, matrix=None, geo=None, tags=(), **more):
    directory = geo or keys(raster_type)
    extra = [(34735, "H", len(directory), directory, True), *tags]
    if matrix is not None:
        extra.append((34264, "d", 16, tuple(matrix), True))
    elif step is not None:
        extra.append((33550, "d", 3, (step[0], step[1], 0.0), True))
        extra.append((33922, "d", 6, tuple(float(value) for value in tie), True))
    if nodata is not None:
        extra.append((42113, "s", 0, nodata, True))
    tifffile.imwrite(name, data, photometric="minisblack", metadata=None, software=False, extratags=extra, **more)


for kind in ["uint8", "int8", "uint16", "int16", "uint32", "int32", "float32", "float64"]:
    write(f"{kind}-strips.tif", heights(kind), rowsperstrip=5)
write("uint8-tiles.tif", heights("uint8"), tile=(16, 16))
write("int16-tiles-point.tif", heights("int16"), raster_type=2, tile=(16, 32), compression="deflate", predictor=True)
write("float32-tiles-lzw.tif", heights("float32"), tile=(16, 16), compression="lzw")
write("float32-big-endian.tif", heights("float32"), byteorder=">", rowsperstrip=7)
write("float32-bigtiff.tif", heights("float32"), bigtiff=True, rowsperstrip=7)

holes = heights("float32")
holes[3:6, 30:] = -9999
holes[10, 12] = numpy.nan
write("float32-holes.tif", holes, nodata="-9999", rowsperstrip=4)
holes = heights("int16")
holes[0:4, 0:5] = -32768
write("int16-holes.tif", holes, nodata="-32768", rowsperstrip=4)

# Degrees: 0.0003 of longitude, 0.0002 of latitude, at 51 north.
write("degrees.tif", heights("float32"), step=(0.0003, 0.0002), tie=(0, 0, 0, 7.4, 51.2, 0), geo=keys(1, model=2, extra=[(2048, 0, 1, 4326)]))
# US survey feet in plan (9003), feet in height (VerticalUnits 9002).
write("feet.tif", heights("float32"), step=(10, 12), geo=keys(1, extra=[(3076, 0, 1, 9003), (4099, 0, 1, 9002)]))
# A matrix in place of a scale; and one that turns the ground.
write("matrix.tif", heights("float32"), matrix=(2.5, 0, 0, 431000.25, 0, -4.0, 0, 5621400.5, 0, 0, 0, 0, 0, 0, 0, 1))
write("turned.tif", heights("float32"), matrix=(2.4, 0.7, 0, 431000.25, 0.7, -3.9, 0, 5621400.5, 0, 0, 0, 0, 0, 0, 0, 1))
write("no-place.tif", heights("float32"), step=None)
rgb = numpy.stack([heights("uint8")] * 3, axis=-1)
tifffile.imwrite("colours.tif", rgb, photometric="rgb", metadata=None, software=False)
