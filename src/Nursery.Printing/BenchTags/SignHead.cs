using System.Globalization;
using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.BenchTags;

/// <summary>The upper part of a sign: house, the bench's code to be read from the door, its heat, and the QR code.</summary>
internal sealed class SignHead
{
    private const double _qrGap = 4 * Mm;

    /// <summary>The quiet zone may reach into the sign's padding, up to the frame but not over it.</summary>
    private const double _qrOverhang = 4 * Mm;

    private const int _zonesBesideQr = 2;
    private const int _mostZones = 8;

    private readonly TextSetter _text;
    private readonly double _width;
    private readonly Qr _qr;
    private readonly string _code;
    private readonly string _caption;
    private readonly TextStyle _codeStyle;
    private readonly TextStyle _captionStyle;
    private readonly IReadOnlyList<string> _house;
    private readonly IReadOnlyList<string> _name;
    private readonly IReadOnlyList<string> _kind;
    private readonly IReadOnlyList<ZoneLine> _zones;
    private readonly int _zonesLeftOut;

    public SignHead(BenchTag tag, string? publicAddress, double width, TextSetter text)
    {
        _text = text;
        _width = width;
        _qr = Qr.Of(TagAddress.Of('B', tag.BenchCode, publicAddress));
        _codeStyle = text.Fit(tag.BenchCode, SignCode, LeftWidth, least: 28);
        _code = text.OneLine(tag.BenchCode, _codeStyle, LeftWidth);
        _captionStyle = text.Fit(tag.BenchCode, QrCaption, QrSide, least: 10);
        _caption = text.OneLine(tag.BenchCode, _captionStyle, QrSide);

        // The middle of the upper edge is kept free for the hole.
        _house = text.Wrap(tag.House, SignHouse, width / 2 - 8 * Mm, most: 2);
        _name = tag.BenchName == tag.BenchCode ? [] : text.Wrap(tag.BenchName, SignName, LeftWidth, most: 2);
        var spaces = tag.Spaces.ToString(CultureInfo.InvariantCulture) + (tag.Spaces == 1 ? " tray space" : " tray spaces");
        _kind = text.Wrap($"{tag.Kind} · {spaces}", SignKind, LeftWidth, most: 2);
        _zones = [.. tag.Zones.Take(_mostZones)];
        _zonesLeftOut = tag.Zones.Count - _zones.Count;
    }

    public double Height => Math.Max(QrSide - _qrOverhang + QrCaption.Line, NamesHeight + ZonesBeside * Setpoint.Line)
        + (ZonesBelow + 1) / 2 * Setpoint.Line + (_zonesLeftOut > 0 ? SignKind.Line : 0) + 2 * Mm;

    private double QrSide => QrSize.OnSign(_qr) * _qr.Modules;

    private double LeftWidth => _width + _qrOverhang - QrSide - _qrGap;

    private double NamesHeight =>
        _house.Count * SignHouse.Line + SignCode.Line + _name.Count * SignName.Line + _kind.Count * SignKind.Line + 2 * Mm;

    private int ZonesBeside => _zones.Count <= _zonesBesideQr ? _zones.Count : 0;

    private int ZonesBelow => _zones.Count - ZonesBeside;

    public void Draw(XGraphics page, double left, double top)
    {
        double qrLeft = left + _width + _qrOverhang - QrSide, qrTop = top - _qrOverhang;
        _qr.Draw(page, qrLeft, qrTop, QrSize.OnSign(_qr));
        _text.Draw(page, _caption, qrLeft + (QrSide - _text.Width(_caption, _captionStyle)) / 2, qrTop + QrSide, _captionStyle);

        var y = _text.DrawLines(page, _house, left, top, SignHouse);
        _text.Draw(page, _code, left, y, _codeStyle);
        y = _text.DrawLines(page, _name, left, y + SignCode.Line, SignName);
        y = _text.DrawLines(page, _kind, left, y, SignKind) + 2 * Mm;
        for (var i = 0; i < ZonesBeside; i++, y += Setpoint.Line)
            DrawZone(page, _zones[i], left, y, LeftWidth);

        y = Math.Max(y, qrTop + QrSide + QrCaption.Line);
        var column = (_width - _qrGap) / 2;
        for (var i = ZonesBeside; i < _zones.Count; i++)
        {
            var below = i - ZonesBeside;
            DrawZone(page, _zones[i], left + below % 2 * (column + _qrGap), y + below / 2 * Setpoint.Line, column);
        }

        if (_zonesLeftOut > 0)
            _text.Draw(page, $"+ {_zonesLeftOut} more heat zones", left, y + (ZonesBelow + 1) / 2 * Setpoint.Line, SignKind);
    }

    private void DrawZone(XGraphics page, ZoneLine zone, double left, double top, double width)
    {
        var plateStyle = _text.Fit(zone.Setpoint, Setpoint, width / 2 - 12, least: 9);
        var setpoint = _text.OneLine(zone.Setpoint, plateStyle, width / 2 - 12);
        var plate = new XRect(left, top + 2, _text.Width(setpoint, plateStyle) + 12, Setpoint.Line - 5);
        page.DrawRectangle(new XPen(Ink, 1.5), plate);
        _text.Draw(page, setpoint, left + 6, top - 0.5, plateStyle);
        var rest = width - plate.Width - 8;
        _text.Draw(page, _text.OneLine($"zone {zone.Code} · spaces {zone.Spaces}", ZoneText, rest), plate.Right + 8, top - 0.5, ZoneText);
    }
}
