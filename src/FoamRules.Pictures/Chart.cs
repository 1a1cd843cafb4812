using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Legends;
using OxyPlot.Series;

namespace FoamRules.Pictures;

/// <summary>The one look of all charts: black on white, told apart by dashes and words as well as by colour, readable in print.</summary>
internal sealed class Chart
{
    private static readonly OxyColor Ink = OxyColor.FromRgb(0x22, 0x22, 0x22);
    private static readonly OxyColor[] Colors = [OxyColor.FromRgb(0x1b, 0x4f, 0x72), OxyColor.FromRgb(0x9c, 0x3d, 0x10), OxyColor.FromRgb(0x4a, 0x6b, 0x2a)];
    private static readonly LineStyle[] Styles = [LineStyle.Solid, LineStyle.Dash, LineStyle.DashDot];
    private readonly PlotModel _plot;
    private int _lines;

    public Chart(string title, string across, string up, double? least = null, bool tenfold = false)
    {
        _plot = new PlotModel { Title = title, TitleFontSize = 15, TitleFontWeight = 600, DefaultFont = "Arial", TextColor = Ink, PlotAreaBorderColor = Ink, Background = OxyColors.White };
        _plot.Axes.Add(Axis(AxisPosition.Bottom, across, null));
        _plot.Axes.Add(Axis(AxisPosition.Left, up, least, tenfold));
        _plot.Legends.Add(new Legend { LegendPlacement = LegendPlacement.Outside, LegendPosition = LegendPosition.BottomCenter, LegendOrientation = LegendOrientation.Horizontal, LegendFontSize = 12, LegendTextColor = Ink });
    }

    /// <summary>A line through points, with its name in the legend.</summary>
    public Chart Line(string name, IEnumerable<(double X, double Y)> points)
    {
        var line = new LineSeries { Title = Roomy(name), Color = Colors[_lines % Colors.Length], LineStyle = Styles[_lines % Styles.Length], StrokeThickness = 2 };
        line.Points.AddRange(points.Select(point => new DataPoint(point.X, point.Y)));
        _plot.Series.Add(line);
        _lines++;
        return this;
    }

    /// <summary>A band between two lines.</summary>
    public Chart Band(string name, IEnumerable<((double X, double Y) Low, (double X, double Y) High)> points)
    {
        var band = new AreaSeries { Title = Roomy(name), Color = OxyColor.FromAColor(0, Ink), Fill = OxyColor.FromAColor(45, Colors[0]), Color2 = OxyColor.FromAColor(0, Ink) };
        foreach (var (low, high) in points)
        {
            band.Points.Add(new DataPoint(low.X, low.Y));
            band.Points2.Add(new DataPoint(high.X, high.Y));
        }

        _plot.Series.Add(band);
        return this;
    }

    /// <summary>Single points.</summary>
    public Chart Dots(string name, IEnumerable<(double X, double Y)> points, bool hollow = false)
    {
        var dots = new ScatterSeries { Title = Roomy(name), MarkerType = MarkerType.Circle, MarkerSize = 4.5, MarkerFill = hollow ? OxyColors.White : Ink, MarkerStroke = Ink, MarkerStrokeThickness = 1.5 };
        dots.Points.AddRange(points.Select(point => new ScatterPoint(point.X, point.Y)));
        _plot.Series.Add(dots);
        return this;
    }

    /// <summary>A limit across the chart, with its words on it.</summary>
    public Chart LimitAcross(double y, string words) => Mark(OxyPlot.Annotations.LineAnnotationType.Horizontal, y, words);

    /// <summary>A moment up the chart, with its words on it.</summary>
    public Chart MomentUp(double x, string words) => Mark(OxyPlot.Annotations.LineAnnotationType.Vertical, x, words);

    /// <summary>The chart as SVG with a title and a description for those who cannot see it.</summary>
    public string ToSvg(string description, double width = 720, double height = 440)
    {
        var svg = new SvgExporter { Width = width, Height = height, UseVerticalTextAlignmentWorkaround = true, IsDocument = false }.ExportToString(_plot);
        return Svg.Describe(svg, _plot.Title, description, width, height);
    }

    // The exporter measures text narrower than most viewers draw it, and cuts the legend there.
    private static string Roomy(string name) => name + new string('\u00a0', 4 + (name.Length / 2));

    private Chart Mark(OxyPlot.Annotations.LineAnnotationType type, double at, string words)
    {
        var mark = new OxyPlot.Annotations.LineAnnotation { Type = type, Text = words, Color = Ink, LineStyle = LineStyle.Dot, StrokeThickness = 1.5, TextColor = Ink, FontSize = 12 };
        mark.X = type == OxyPlot.Annotations.LineAnnotationType.Vertical ? at : 0;
        mark.Y = type == OxyPlot.Annotations.LineAnnotationType.Horizontal ? at : 0;
        _plot.Annotations.Add(mark);
        return this;
    }

    private static Axis Axis(AxisPosition position, string title, double? least, bool tenfold = false)
    {
        Axis axis = tenfold ? new LogarithmicAxis() : new LinearAxis();
        axis.Position = position;
        axis.Title = title;
        axis.Minimum = least ?? double.NaN;
        axis.MajorGridlineStyle = LineStyle.Solid;
        axis.MajorGridlineColor = OxyColor.FromRgb(0xe4, 0xe4, 0xe4);
        axis.TicklineColor = Ink;
        axis.TitleFontSize = 13;
        axis.AxisTitleDistance = 10;
        axis.FontSize = 12;
        return axis;
    }
}
