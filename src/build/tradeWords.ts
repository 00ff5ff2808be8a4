/** Words of checklists in general, so that a pack opened later seldom needs the large dictionary. */

const WORDS = `
  abort aft aileron ailerons air alternate altimeter altimeters altitude amber anti apron area armed arming arrival
  autopilot auxiliary avionics ball bank barometer battery batteries beacon belts below bleed bleeds board bottle brake
  brakes briefing bus button cabin calibrated captain cargo carburetor cartridge center chart check checklist chocks
  circuit breakers clear cleared clearance climb clock closed cockpit code cold compass complete computer configuration
  connected console control controls cooling course cover covers cowl crew cruise cutoff departure descent
  director disc display dome door doors down elevator emergency empty engine engines entered equipment exhaust exit
  external extinguisher fan fasten feather fire first flag flap flaps flight flow flows force forward free frequency fuel
  gauge gauges gear generator generators glass governor green ground guard gust handle headset heading heat heater hatch
  high hold hood horizon hot hydraulic hydraulics ice idle ignition indicated indicator inertial inlet inspection
  instruments jacks ladder lamp landing latched lean left level lever levers light lights line lock locked logbook
  low main manifold map mask master memory minimum mirror mixture mode monitor navigation neutral normal
  nose obtained off oil on open outer overhead oxygen panel papers parking passenger pedals performance pin pins pitch
  pitot pneumatic position power pressure primer primed probe propeller propellers pump pumps purge push pushback quantity
  radar radio radios ram ramp ready rear received recorder red released removed reset reverse rich right roll rotate rudder
  runway safety seat seats seatbelts secured selected service set signs slats slide slides smoke speed spoiler
  spoilers squawk stabilizer stable stall standby start started starter static steering stop stowed strobe strobes switch
  switches tail takeoff tank tanks taxi temperature tested thrust throttle throttles tilt torque tow traffic
  transfer transponder trim turbine valve valves vent verified volts warning weather weight wheel wind window
  windows windshield wing wings yaw yellow zone`

export const TRADE_WORDS: readonly string[] = WORDS.split(/\s+/).filter((word) => word !== '')
