using Microsoft.AspNetCore.Components;
using Nursery.Application.Reservations;
using Nursery.Domain.People;
using Nursery.Web.Components.Pages.Benches.Moving;

namespace Nursery.Web.Components.Pages.Benches;

/// <summary>Moving trays and setting zones on the map.</summary>
public sealed partial class BenchesPage
{
    private Actor? _actor;
    private string? _zone;
    private TrayMover? _mover;

    [Inject]
    private MoveTrays MoveTrays { get; set; } = default!;

    [Inject]
    private UndoReplan UndoReplan { get; set; } = default!;

    private TrayMover Mover => _mover ??= new TrayMover(MoveTrays, UndoReplan);

    // The past is fixed: nothing is dragged on a day before today.
    private bool CanMove => _actor?.Rights.Contains(Right.Plan) == true && _houses!.Day >= _houses.Today;

    private RenderFragment DragLayerOver(MapLayout layout) => builder =>
    {
        builder.OpenComponent<DragLayer>(0);
        builder.AddComponentParameter(1, nameof(DragLayer.Layout), layout);
        builder.AddComponentParameter(2, nameof(DragLayer.Mover), Mover);
        builder.AddComponentParameter(3, nameof(DragLayer.OnChanged), EventCallback.Factory.Create(this, ReloadAsync));
        builder.AddComponentParameter(4, nameof(DragLayer.OnHouse), EventCallback.Factory.Create<string>(this, GoToHouseAsync));
        builder.CloseComponent();
    };

    private Task GoToHouseAsync(string code) =>
        _houses?.Houses.FirstOrDefault(house => house.Code == code) is { } house ? ChooseAsync(house) : Task.CompletedTask;

    private void SelectTrays(TraySetKey? key)
    {
        _zone = null;
        Select(key);
    }

    private void SelectZone(string code)
    {
        Select(null);
        _zone = code == _zone ? null : code;
    }

    private Task ReloadAsync()
    {
        _curveOf = null;
        return LoadAsync(_day);
    }
}
